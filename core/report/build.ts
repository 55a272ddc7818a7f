import type { Facts } from '../facts/facts.ts';
import type { AcceptedWarnings } from '../findings/acceptance/acceptance.ts';
import type { LimitResult } from '../findings/limits.ts';
import type { Finding } from '../language/finding.ts';
import { layerLetter } from '../language/layerLetters.ts';
import type { Specification } from '../language/specification/specification.ts';
import { phaseBoundaries } from '../winding/phaseBoundaries.ts';
import { assumptionsOf } from './assumptions.ts';
import { reportedConnection } from './connection.ts';
import {
  finite,
  reportedCopper,
  reportedDuty,
  reportedEmf,
  reportedIron,
  reportedModels,
  reportedOperation,
} from './machine.ts';
import { missingOf } from './missing.ts';
import { reportedAccepted, reportedFindings } from './reportedFindings.ts';
import type { Report } from './schema.ts';
import { reportedSpace } from './space.ts';
import { unreadLimits } from './unreadLimits.ts';

/** How much a report is to list. */
export interface ReportWishes {
  /** Highest order listed; default max(4 slots, 20 pole pairs). */
  readonly orders?: number | undefined;
  /** List the connections to choose from, which takes a further search; default false. */
  readonly candidates?: boolean;
}

/** What a report is made from. */
export interface ReportInput extends ReportWishes {
  readonly title: string;
  readonly specification: Specification;
  readonly facts: Facts | null;
  readonly limits: readonly LimitResult[];
  readonly findings: readonly Finding[];
  readonly accepted: readonly AcceptedWarnings[];
  readonly lineStarts: readonly number[];
}

/** The report of any text: null or [] stand for what cannot be computed. */
export function buildReport(input: ReportInput): Report {
  const { facts, specification } = input;
  const orders = input.orders ?? facts?.orders ?? 0;
  return {
    schema: 'slotwright-report/1',
    title: input.title,
    winding: facts ? reportedWinding(facts) : null,
    symmetry: facts
      ? { rotationSlots: facts.symmetry().rotationSlots, negated: facts.symmetry().negated }
      : null,
    ...reportedFactors(facts, orders),
    mmf: facts ? reportedMmf(facts, orders) : null,
    noise: facts ? facts.noise().map((force) => ({ ...force })) : [],
    emf: facts ? reportedEmf(facts) : null,
    ...reportedConnection(facts, input.candidates ?? false),
    phaseInsulation: facts ? reportedBoundaries(facts) : null,
    operation: facts ? reportedOperation(facts) : null,
    duty: facts ? reportedDuty(facts) : null,
    iron: facts ? reportedIron(facts) : null,
    copper: facts ? reportedCopper(facts) : null,
    space: facts ? reportedSpace(facts) : null,
    models: facts ? reportedModels(facts) : [],
    limits: reportedLimits(input),
    assumptions: assumptionsOf(specification, facts),
    missing: missingOf(specification, facts),
    findings: reportedFindings(input.findings, input.lineStarts),
    accepted: reportedAccepted(input.accepted, input.lineStarts),
  };
}

/** Every limit in text order, those that could not be read among them. */
function reportedLimits({ limits, specification }: ReportInput): Report['limits'] {
  const placed = [
    ...limits.map(
      ({ quantity, harmonic, order, relation, limit, actual, met, range, source: { point } }) => ({
        range,
        limit: {
          quantity,
          harmonic,
          order,
          ...(point === null ? {} : { point }),
          relation,
          limit,
          actual: finite(actual),
          met,
        },
      }),
    ),
    ...unreadLimits(specification).map(({ quantity, range }) => ({
      range,
      limit: {
        quantity,
        harmonic: null,
        order: null,
        relation: null,
        limit: null,
        actual: null,
        met: null,
      },
    })),
  ];
  return placed.sort((a, b) => a.range.start - b.range.start).map(({ limit }) => limit);
}

function reportedBoundaries({ winding }: Facts): NonNullable<Report['phaseInsulation']> {
  const { inSlots, inEnds } = phaseBoundaries(winding);
  return {
    inSlots: inSlots.map(({ lower, upper, slots }) => ({
      lower: layerLetter(lower),
      upper: layerLetter(upper),
      slots: [...slots],
    })),
    inEnds: inEnds.map(({ layer, slots }) => ({ layer: layerLetter(layer), slots: [...slots] })),
  };
}

function reportedWinding(facts: Facts): NonNullable<Report['winding']> {
  const { winding } = facts;
  const figures = facts.symmetry();
  return {
    slots: winding.slots,
    poles: winding.poles,
    phases: winding.phases.names.length,
    layers: winding.layers,
    bars: figures.bars,
    barsPerPhase: figures.barsPerPhase,
    parallelPaths: winding.parallelPaths,
    seriesTurns: figures.seriesTurns,
    slotsPerPolePerPhase: figures.slotsPerPolePerPhase,
    basicSlots: figures.basicSlots,
    basicPolePairs: figures.basicPolePairs,
    identicalGroups: figures.identicalGroups,
    largestParallelPaths: figures.largestParallelPaths,
    largestParallelPathsAnyCrowns: figures.parallelPathsAnyCrowns.at(-1) ?? 0,
    coggingPeriods: figures.coggingPeriods,
    radialSymmetry: figures.radialSymmetry,
    balanced: facts.balance().balanced,
    runsWithSlotNumbers: facts.mmf().runsWithSlotNumbers,
  };
}

function reportedFactors(facts: Facts | null, orders: number): Pick<Report, 'factors' | 'factorsByPhase'> {
  if (!facts) return { factors: [] };
  const byPhase = facts.factorRowsByPhase(orders);
  return {
    factors: [...facts.factorRows(orders)],
    ...(byPhase
      ? {
          factorsByPhase: byPhase.map((rows, i) => ({
            phase: facts.winding.phases.names[i]!,
            factors: [...rows],
          })),
        }
      : {}),
  };
}

function reportedMmf(facts: Facts, orders: number): NonNullable<Report['mmf']> {
  const within = <T extends { readonly order: number }>(waves: readonly T[]) =>
    waves.filter(({ order }) => order <= orders).map((wave) => ({ ...wave }));
  const outer = facts.outerMmf();
  const waves = orders > facts.orders ? facts.mmfUpTo(orders).waves : facts.mmf().waves;
  return {
    perAmpere: !facts.phaseCurrent().known,
    waves: within(waves),
    ...(outer ? { outerWaves: within(outer.waves) } : {}),
    differentialLeakage: facts.differentialLeakage(),
  };
}
