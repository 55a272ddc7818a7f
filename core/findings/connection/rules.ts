import type { BarGap } from '../../balance/potentials.ts';
import type { JointProblem } from '../../balance/validity.ts';
import { type ConnectionFacts, joinedFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { limitMargin } from '../../facts/limitMargin.ts';
import { orNull } from '../../figures/figure.ts';
import { type Finding, finding, type Range, type Severity } from '../../language/finding.ts';
import { layerLetter, layerLetters } from '../../language/layerLetters.ts';
import { firstOf, plural } from '../../language/lists.ts';
import { firstLargest, fixed, largest } from '../../language/numbers.ts';
import { defaultOf, valueOrDefault } from '../../language/specification/defaults.ts';
import { connectStatements } from '../../language/vocabulary/blocks/winding.ts';
import type { SpecialsPlace } from '../../routing/route.ts';
import { narrowestTips } from '../../space/ends/endRoom.ts';
import type { WindingJoint } from '../../winding/joints/joints.ts';
import type { TipCrossing, TipSpacing } from '../../winding/joints/tips.ts';
import { type Bar, barName, type EndSide } from '../../winding/model.ts';
import { pathName } from '../../winding/paths/writtenPaths.ts';
import { potentialBehind } from '../copper/insulationRules.ts';
import { limitValue } from '../limits.ts';
import { atMost, canBeTold, replacing } from '../space/freeingLengths.ts';
import * as kinds from './findingKinds.ts';
import { otherWay } from './otherWay.ts';

// A finding names this many joints or paths, then says how many more there are.
const mostNamed = 6;

/** Where findings about the whole connection stand: the route statement, the first path, or the block. */
export function connectRange({ specification }: Facts): Range {
  const { connect } = specification;
  return (
    connect?.route?.statement ??
    connect?.paths[0]?.statement ??
    connect?.range ??
    specification.machine!.range
  );
}

/** The first names of a list, and how many more there are. */
export function named(names: readonly string[]): string {
  return firstOf(names, mostNamed);
}

function jointName(joint: WindingJoint): string {
  return `${barName(joint.from)}–${barName(joint.to)}`;
}

/** The text a path comes from: its statement, or where it was asked for. */
function pathRange(facts: Facts, connection: ConnectionFacts, path: number): Range {
  return connection.written?.[path]?.statement ?? connectRange(facts);
}

/** The step that makes a joint: that of the bar it leads to; of a copied path, the step it is copied from. */
function jointRange(facts: Facts, connection: ConnectionFacts, joint: WindingJoint): Range {
  const path = connection.written?.[joint.path];
  return (path?.source ?? path)?.steps[joint.position + 1] ?? connectRange(facts);
}

/** A routing that was not possible: an error where it was asked for, an info where it is the default. */
export function checkRouting(facts: Facts): readonly Finding[] {
  const state = facts.connection;
  if (state.kind === 'connected' && state.facts.explanation?.crownsNeeded) {
    return [finding(kinds.crownsTaken, connectRange(facts), { asked: facts.winding.parallelPaths })];
  }
  if (state.kind !== 'refused') return [];
  const data = {
    asked: state.asked,
    reason: state.reason,
    phases: facts.winding.phases.names,
    anyCrowns: facts.symmetry().parallelPathsAnyCrowns,
    oneLayer: facts.winding.layers === 1,
  };
  const severity: Severity = state.byDefault ? 'info' : 'error';
  return [finding(kinds.routingRefused, connectRange(facts), data, { severity })];
}

/** Another connection that is the best one by now, while one found before is kept. */
export function checkOffered(facts: Facts): readonly Finding[] {
  const state = facts.connection;
  if (state.kind !== 'connected' || !state.offered) return [];
  const words = (connection: ConnectionFacts) => {
    const { jumpers, special, specialShapes } = connection.counts();
    const counts = [
      plural(jumpers, 'connecting piece'),
      `${plural(special, 'special joint')} of ${plural(specialShapes, 'shape')} a phase`,
    ].join(', ');
    return `${connection.hash()} (${counts})`;
  };
  const data = { kept: words(state.facts), offered: words(state.offered) };
  return [finding(kinds.anotherOffered, connectRange(facts), data)];
}

/** Limits that made the router take another connection. */
export function checkLimitsDecided({ specification, connection, winding }: Facts): readonly Finding[] {
  const explanation = connection.kind === 'connected' ? connection.facts.explanation : null;
  return (explanation?.limitsDecided ?? []).flatMap(({ quantity, otherwise }) => {
    // The router counts those of a phase.
    const value = quantity === 'legs-bent-apart' ? otherwise * winding.phases.names.length : otherwise;
    return specification.limits
      .filter(({ value: limit }) => limit.entry.word === quantity && limitMargin(limit, value) < 0)
      .map(({ value: limit, statement }) =>
        finding(kinds.limitDecides, statement, {
          what: `${quantity} ${limit.relation} ${limit.written}`,
          otherwise: limitValue({ source: limit }, value),
        }),
      );
  });
}

/** Path ends on the far side, for hairpins. */
export function checkEnds(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (connection?.form !== 'hairpin') return [];
  return connection.paths.flatMap((path, i) => {
    const name = pathName(path, facts.winding.phases);
    const range = pathRange(facts, connection, i);
    return [
      ...(path.startsFar ? [finding(kinds.farEnd, range, { path: name, end: 'starts' })] : []),
      ...(path.endsFar ? [finding(kinds.farEnd, range, { path: name, end: 'ends' })] : []),
    ];
  });
}

/** Joints that collide, or need care: one finding for each place of the text and kind. */
export function checkJoints(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection) return [];
  const groups = new Map<
    string,
    { readonly problem: JointProblem; readonly range: Range; readonly joints: WindingJoint[] }
  >();
  const crownsMayDiffer = specialsOf(facts, connection) !== 'joined';
  for (const problem of connection.jointProblems()) {
    if (problem.kind === 'far-side-special' && crownsMayDiffer) continue;
    const severity = problem.kind === 'jumper' ? problem.severity : '';
    // Connecting pieces as they should be are worth one line, not one at every step.
    const range = severity === 'info' ? connectRange(facts) : jointRange(facts, connection, problem.joint);
    const key = `${problem.kind} ${severity} ${range.start} ${range.end}`;
    const group = groups.get(key) ?? { problem, range, joints: [] };
    group.joints.push(problem.joint);
    groups.set(key, group);
  }
  return [...groups.values()].flatMap((group) => jointFinding(group, facts, connection));
}

/** Where special spans may lie: as stated, as found, else in the joined legs. */
function specialsOf({ specification }: Facts, { explanation }: ConnectionFacts): SpecialsPlace {
  return (
    specification.connect?.specials?.value ?? explanation?.specials ?? defaultOf(connectStatements.specials)
  );
}

/** How many of some joints each phase has. */
function countsByPhase(joints: readonly WindingJoint[]): readonly number[] {
  const counts = new Map<number, number>();
  for (const { phase } of joints) counts.set(phase, (counts.get(phase) ?? 0) + 1);
  return [...counts.values()];
}

interface JointGroup {
  readonly problem: JointProblem;
  readonly range: Range;
  readonly joints: readonly WindingJoint[];
}

function jointFinding(
  { problem, range, joints }: JointGroup,
  facts: Facts,
  connection: ConnectionFacts,
): readonly Finding[] {
  const data = { bars: named(joints.map(jointName)), count: joints.length, phases: countsByPhase(joints) };
  switch (problem.kind) {
    case 'lean-collision':
      return [
        finding(kinds.leanCollision, range, { ...data, hop: otherWay(joints, range, facts, connection) }),
      ];
    case 'jumper':
      return [
        finding(
          kinds.jumperNeeded,
          range,
          { ...data, crossing: problem.severity === 'warning' },
          { severity: problem.severity },
        ),
      ];
    case 'far-side-special':
      return [finding(kinds.farSideSpecial, range, data)];
    case 'joint-without-span':
      return [finding(kinds.jointWithoutSpan, range, data)];
    case 'joint-of-two-phases':
      // The comparison of paths and layout has reported the bar.
      return [];
  }
}

/** Voltages of parallel paths: by the circulating current where it is known, else by the difference itself. */
export function checkPathVoltages(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection) return [];
  return connection.balances().flatMap((balance) => {
    const { difference } = balance;
    if (difference === null || balance.sameAngles || difference < 1e-9) return [];
    const distance = (path: { readonly relative: number | null; readonly angle: number | null }) =>
      Math.hypot((path.relative ?? 1) - 1, ((path.angle ?? 0) * Math.PI) / 180);
    const worst = firstLargest(balance.paths, distance);
    const phase = facts.winding.phases.names[balance.phase]!;
    const data = {
      phase,
      difference,
      worst: `path ${pathName(connection.paths[worst.path]!, facts.winding.phases)}`,
      circulating: orNull(facts.circulatingCurrent()),
      deviation: orNull(facts.currentDeviation()),
    };
    const related = balance.paths.map((path) => ({
      message: `path ${pathName(connection.paths[path.path]!, facts.winding.phases)}: ${fixed(path.relative, 5)} of the mean, ${fixed(path.angle, 3)} edeg`,
      range: pathRange(facts, connection, path.path),
    }));
    const atLoad = graded(data.deviation ?? 0, deviationLimits);
    const severity =
      data.circulating === null
        ? graded(difference, [0.005, 0.0005])
        : graver(graded(data.circulating, [0.05, 0.005]), atLoad);
    return [
      finding(kinds.pathsUnequal, pathRange(facts, connection, worst.path), data, { severity, related }),
    ];
  });
}

/** Deviation of a path's current from an equal share at load that is an error, and that is a warning. */
const deviationLimits = [0.05, 0.01] as const;

function graver(one: Severity, other: Severity): Severity {
  const severities: readonly Severity[] = ['error', 'warning', 'info'];
  return severities.find((severity) => severity === one || severity === other)!;
}

function graded(value: number, [error, warning]: readonly [number, number]): Severity {
  return value > error ? 'error' : value > warning ? 'warning' : 'info';
}

/** Layers used unequally by parallel paths; the split of the current decides how serious it is. */
export function checkOccupation(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection) return [];
  const problems = connection.occupation();
  if (problems.length === 0) return [];
  const known = orNull(facts.currentDeviation());
  const split = known ?? connection.split()?.deviation ?? null;
  const accepted = valueOrDefault(connectStatements, facts.specification.connect, 'route').deviation;
  const seen = new Set<number>();
  return problems.flatMap(({ phase, path, kind }) => {
    if (seen.has(phase)) return [];
    seen.add(phase);
    const data = {
      phase: facts.winding.phases.names[phase]!,
      path: String(connection.paths[path]!.number),
      cells: kind === 'cells',
      split,
      alone: known === null,
    };
    const asAccepted = kind === 'cells' && accepted !== null && split !== null && split <= accepted;
    const severity = asAccepted ? 'info' : split === null ? 'error' : graded(split, deviationLimits);
    return [finding(kinds.occupationUnequal, pathRange(facts, connection, path), data, { severity })];
  });
}

/** Paths that share the load unequally although their voltages and layers are equal. */
export function checkPathCurrents(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection || connection.occupation().length > 0) return [];
  const alike = connection
    .balances()
    .every(({ difference, sameAngles }) => sameAngles || (difference ?? 0) < 1e-9);
  const deviation = alike ? (orNull(facts.currentDeviation()) ?? 0) : 0;
  const severity = graded(deviation, deviationLimits);
  if (severity === 'info') return [];
  return [finding(kinds.pathCurrentsUnequal, connectRange(facts), { deviation }, { severity })];
}

/** Connecting pieces: levels, and an order in which all joints can be set. */
export function checkAssembly(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection) return [];
  const findings: Finding[] = [];
  const { space } = facts.space();
  // In space pieces lie where their tips are; without sizes their slots decide.
  const highest = space.known
    ? largest(space.value.links.map(({ level }) => level))
    : connection.levels().highest;
  if (highest > 1) findings.push(finding(kinds.jumperLevelsMany, connectRange(facts), { levels: highest }));
  const { ring } = connection.access();
  if (ring)
    findings.push(finding(kinds.accessBlocked, connectRange(facts), { joints: named(ring.map(String)) }));
  const apart = connection.legsBentApart();
  if (apart > 0) findings.push(finding(kinds.legsApart, connectRange(facts), { count: apart }));
  // Crowns stand above each other where they reach over each other; only joints have tips.
  const jointed: readonly EndSide[] = connection.form === 'straight' ? ['connection', 'far'] : ['connection'];
  for (const side of jointed) {
    const spacing = facts.tips(side);
    if (spacing) findings.push(...crossingLegs(facts, connection, spacing));
    if (spacing && spacing.gap < 1 - 1e-9) {
      const room = narrowestTips(facts.specification, facts.winding, spacing.layerGaps);
      const lacks = room !== null && room.actual < room.needed;
      const severity = spacing.gap < 1e-9 || lacks ? 'error' : 'warning';
      const data = { side, gap: spacing.gap, room };
      const { endClearance } = facts.specification.bar ?? {};
      const fix =
        lacks && canBeTold(room.left)
          ? { fix: replacing(endClearance, atMost(room.left), 'end-clearance') }
          : {};
      findings.push(finding(kinds.tipsTooClose, connectRange(facts), data, { severity, ...fix }));
    }
  }
  return findings;
}

/** Legs that run through each other's joints on a side: one finding for each place of the text. */
function crossingLegs(facts: Facts, connection: ConnectionFacts, spacing: TipSpacing): readonly Finding[] {
  const { side, crossings } = spacing;
  if (crossings.length === 0) return [];
  const written = facts.specification.bar?.jointStraight?.value ?? 0;
  const { joints } = connection.joints();
  const byPlace = new Map<string, { readonly range: Range; readonly crossings: TipCrossing[] }>();
  for (const crossing of crossings) {
    const joint = joints.find(
      ({ side: own, from, to }) =>
        own === side &&
        [from, to].some(({ slot, layer }) => slot === crossing.longer && layer === crossing.layer),
    );
    const range = joint ? jointRange(facts, connection, joint) : connectRange(facts);
    const key = `${range.start} ${range.end}`;
    const group = byPlace.get(key) ?? { range, crossings: [] };
    group.crossings.push(crossing);
    byPlace.set(key, group);
  }
  return [...byPlace.values()].map((group) => {
    const { layer, longer, shorter } = group.crossings[0]!;
    const lacking = largest(group.crossings.map((crossing) => crossing.lacking));
    const data = {
      side,
      bars: [barName({ slot: longer, layer }), barName({ slot: shorter, layer })] as const,
      count: group.crossings.length,
      jointStraight: written - lacking > 0 ? written - lacking : null,
      crowns: connection.form === 'hairpin' && specialsOf(facts, connection) === 'joined',
    };
    const severity = facts.space().space.known ? 'error' : 'warning';
    return finding(kinds.legsOvertake, group.range, data, { severity });
  });
}

/** Where the leads come out. */
export function checkTerminals(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection) return [];
  const { problems, startWindow } = connection.terminals();
  const findings: Finding[] = [];
  const inner = problems.flatMap((problem) => (problem.kind === 'lead-in-inner-layer' ? [problem] : []));
  if (inner.length > 0) {
    const names = inner.map(
      ({ path, layer }) =>
        `${pathName(connection.paths[path]!, facts.winding.phases)} in layer ${layerLetter(layer)}`,
    );
    findings.push(
      finding(kinds.innerLead, pathRange(facts, connection, inner[0]!.path), {
        paths: named(names),
        count: inner.length,
      }),
    );
  }
  const mixed = problems.flatMap((problem) => (problem.kind === 'starts-at-mixed-radius' ? [problem] : []));
  if (mixed.length > 0) {
    const phases = mixed.map(({ phase }) => facts.winding.phases.names[phase]!);
    const layers = [...new Set(mixed.flatMap((problem) => problem.layers))].sort((x, y) => x - y);
    const data = { phases: phases.join(' '), layers: layerLetters(layers) };
    findings.push(finding(kinds.mixedRadius, connectRange(facts), data));
  }
  if (startWindow.angle > 180 + 1e-9) {
    findings.push(finding(kinds.wideTerminals, connectRange(facts), { degrees: startWindow.angle }));
  }
  return findings;
}

/** Voltages of the phases against each other. */
export function checkPhaseVoltages(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  if (!connection || !facts.balance().balanced) return [];
  return connection.patterns().flatMap(({ phase, difference }) =>
    difference !== null && difference > 0.01
      ? [
          finding(kinds.phaseVoltagesUnequal, connectRange(facts), {
            phase: facts.winding.phases.names[phase]!,
            difference,
          }),
        ]
      : [],
  );
}

/** Voltages between neighboring bars, relative to the phase voltage. */
export function checkBarVoltages(facts: Facts): readonly Finding[] {
  const connection = joinedFacts(facts);
  const gaps = connection?.gaps();
  if (!connection || !gaps) return [];
  const findings: Finding[] = [];
  const pair = ({ bars }: BarGap) => bars.map((bar: Bar) => barName(bar)).join(' and ');
  const same = gaps.inSlotSamePhase;
  if (same && same.value > 0.8) {
    findings.push(
      finding(kinds.voltageInSlotHigh, connectRange(facts), {
        value: same.value,
        bars: pair(same),
        side: same.side,
      }),
    );
  }
  const two = gaps.inSlotTwoPhases;
  if (two) {
    const data = { value: two.value, bars: pair(two), common: potentialBehind(facts, two) };
    findings.push(finding(kinds.phaseInsulation, connectRange(facts), data));
  }
  return findings;
}
