import { joinedFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { type Finding, type Fix, finding } from '../../language/finding.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { largest } from '../../language/numbers.ts';
import type { BarSpecification } from '../../language/specification/specification.ts';
import type { Given } from '../../language/specification/statements.ts';
import { layerOutside } from '../../language/textFindingKinds.ts';
import { barSize, layerStatement } from '../../sizes/barInputs.ts';
import type { CrossedJoints, SpaceProblem } from '../../space/spaceProblems.ts';
import { crownsCanPass } from '../../winding/joints/crownsInLayer.ts';
import { isPiece } from '../../winding/joints/joints.ts';
import { barName } from '../../winding/model.ts';
import { connectRange, named } from '../connection/rules.ts';
import * as kinds from './findingKinds.ts';
import { atLeast, atMost, replacing } from './freeingLengths.ts';

/** Separators between layers that exist, lie next to each other and in their slot, one between each two. */
export function checkSeparators({ specification, winding }: Facts): readonly Finding[] {
  return specification.slots.flatMap((slot) => {
    const seen = new Set<number>();
    return slot.separators.flatMap(({ value, statement }): Finding[] => {
      const { layers } = value;
      const outside = layers.find((layer) => layer >= winding.layers);
      if (outside !== undefined) {
        const data = { layer: layerLetter(outside), layers: winding.layers };
        return [finding(layerOutside, statement, data)];
      }
      const misplaced = (reason: 'not-neighbors' | 'other-slot' | 'repeated') => [
        finding(kinds.separatorMisplaced, statement, { layers, reason }),
      ];
      if (layers[1] - layers[0] !== 1) return misplaced('not-neighbors');
      const held = (layer: number) =>
        slot.layers.length === 0 || slot.layers.some((named) => named.layer === layer);
      if (!layers.every(held)) return misplaced('other-slot');
      if (seen.has(layers[0])) return misplaced('repeated');
      seen.add(layers[0]);
      return [];
    });
  });
}

/** Bends sharper than a bar is wide. */
export function checkBendRadius({ specification }: Facts): readonly Finding[] {
  const { bar } = specification;
  if (!bar?.bendRadius || bar.width.length === 0) return [];
  const width = largest(bar.width.map(({ value }) => value.value));
  const radius = bar.bendRadius.value;
  if (radius >= width - 1e-9) return [];
  const fix = replacing(bar.bendRadius, atLeast(width), 'bend-radius');
  return [finding(kinds.bendTight, bar.bendRadius.statement, { radius, width }, { fix })];
}

/** Crowns between layers whose bars have different sections. */
export function checkHairpinLegs(facts: Facts): readonly Finding[] {
  const { specification } = facts;
  const connection = joinedFacts(facts);
  if (connection?.form !== 'hairpin') return [];
  for (const { side, from, to, kind, separatePiece } of connection.joints().joints) {
    if (side !== 'far' || isPiece({ kind, separatePiece })) continue;
    const [inner, outer] = [from.layer, to.layer].sort((a, b) => a - b) as [number, number];
    const [one, other] = [barSize(specification, inner), barSize(specification, outer)];
    if (!one.known || !other.known) continue;
    const key = one.value.height === other.value.height ? 'width' : 'height';
    if (one.value[key] === other.value[key]) continue;
    const place = layerStatement(specification.bar, key, outer)?.statement;
    const legs = [
      { layer: inner, ...one.value },
      { layer: outer, ...other.value },
    ] as const;
    return [finding(kinds.hairpinLegsDiffer, place ?? connectRange(facts), { legs })];
  }
  return [];
}

/** Rings without a section. */
export function checkRings({ specification }: Facts): readonly Finding[] {
  const { bar, connect } = specification;
  if (!connect?.rings) return [];
  const needs = [...(bar?.ringWidth ? [] : ['ring-width']), ...(bar?.ringHeight ? [] : ['ring-height'])];
  if (needs.length === 0) return [];
  return [finding(kinds.ringSizeMissing, connect.rings.statement, { needs: needs.join(' and ') })];
}

/** Bar ends that cannot be bent or set as written, and what is worth knowing about them. */
export function checkSpace(facts: Facts): readonly Finding[] {
  const result = facts.space();
  const connection = joinedFacts(facts);
  if (!connection) return [];
  const unplaced: Unplaced[] = [];
  const findings: Finding[] = [];
  for (const problem of result.problems) {
    if (problem.kind === 'lead-without-place') unplaced.push(problem);
    else findings.push(...spaceFinding(problem, facts));
  }
  return [...findings, ...unplacedFindings(unplaced, facts)];
}

type Unplaced = Extract<SpaceProblem, { kind: 'lead-without-place' }>;

function spaceFinding(problem: Exclude<SpaceProblem, Unplaced>, facts: Facts): readonly Finding[] {
  const bar = facts.specification.bar!;
  const place = (given: Given<unknown> | undefined) => given?.statement ?? bar.range;
  switch (problem.kind) {
    case 'bend-in-slot': {
      const fix = replacing(bar.endStraight, atLeast(problem.endStraight), 'end-straight');
      return [finding(kinds.bendInSlot, place(bar.bendRadius ?? bar.endStraight), problem, { fix })];
    }
    case 'bend-in-joint': {
      const fix = replacing(bar.jointStraight, atLeast(problem.jointStraight), 'joint-straight');
      return [finding(kinds.bendInJoint, place(bar.bendRadius ?? bar.jointStraight), problem, { fix })];
    }
    case 'leg-too-short': {
      const { bendRadius } = problem;
      const fix = bendRadius === null ? null : replacing(bar.bendRadius, atMost(bendRadius), 'bend-radius');
      return [finding(kinds.bendRadiusTooLarge, place(bar.bendRadius), problem, fix ? { fix } : {})];
    }
    case 'step-does-not-fit':
      return [
        finding(kinds.stepDoesNotFit, place(bar.bendRadius), problem, flatFix(bar, problem.flatRadius)),
      ];
    case 'crowns-cross': {
      const [first] = problem.joints;
      const { winding } = facts;
      const always = winding.layers === 1 && !crownsCanPass(winding, 0);
      const data = { joints: crossedWords(facts, first!), count: problem.joints.length, always };
      return [finding(kinds.crownsCross, connectRange(facts), data)];
    }
    case 'joint-planes-differ': {
      const fix = levelFix(bar);
      return [finding(kinds.jointPlanesDiffer, place(bar.jointStraight), problem, fix ? { fix } : {})];
    }
    case 'piece-corners-tight': {
      const severity = problem.radius < 0 ? 'error' : bar.bendRadius ? 'warning' : 'info';
      const radius = problem.radius < 0 ? null : problem.radius;
      return [
        finding(kinds.pieceCornersTight, place(bar.bendRadius), problem, {
          severity,
          ...flatFix(bar, radius),
        }),
      ];
    }
    case 'pieces-without-room': {
      const severity = bar.bendRadius ? 'error' : 'info';
      return [
        finding(kinds.piecesWithoutRoom, place(bar.pieceClearance ?? bar.pieceWidth), problem, { severity }),
      ];
    }
    case 'pieces-over-gap':
      return [finding(kinds.piecesOverGap, place(bar.pieceWidth), problem)];
    case 'ring-over-gap':
      return [finding(kinds.ringOverGap, place(bar.ringWidth), problem)];
  }
}

/** One finding for all ends of one use on a side, at the path of the first. */
function unplacedFindings(problems: readonly Unplaced[], facts: Facts): readonly Finding[] {
  const groups = new Map<string, Unplaced[]>();
  for (const problem of problems) {
    const key = `${problem.side} ${problem.use}`;
    groups.set(key, [...(groups.get(key) ?? []), problem]);
  }
  return [...groups.values()].map((group) => {
    const { side, use } = group[0]!;
    const clearances = group.map(({ endClearance }) => endClearance);
    const endClearance = clearances.includes(null) ? null : Math.min(...(clearances as number[]));
    const bars = named(group.map(({ bar }) => barName(bar)));
    const fix =
      endClearance === null
        ? undefined
        : replacing(facts.specification.bar?.endClearance, atMost(endClearance), 'end-clearance');
    const data = { side, use, bars, count: group.length, endClearance };
    return finding(kinds.leadWithoutPlace, connectRange(facts), data, fix ? { fix } : {});
  });
}

function crossedWords(facts: Facts, { joint, other }: CrossedJoints): string {
  const { joints } = joinedFacts(facts)!.joints();
  const words = (number: number) => {
    const { from, to } = joints[number - 1]!;
    return `${barName(from)}–${barName(to)}`;
  };
  return `${words(joint)} and ${words(other)}`;
}

/** The flat radius of the bends: its number where it is written, else behind the edgewise one. */
export function flatFix(bar: BarSpecification, radius: number | null): { readonly fix?: Fix } {
  if (radius === null || !bar.bendRadius) return {};
  const text = atMost(radius);
  const title = `Write 'flat ${text}'`;
  if (bar.flatRadius) return { fix: { title, edits: [{ range: bar.flatRadius.range, text }] } };
  const { end } = bar.bendRadius.range;
  return { fix: { title, edits: [{ range: { start: end, end }, text: ` flat ${text}` }] } };
}

function levelFix({ jointPlane, jointStraight }: BarSpecification): Fix | null {
  const title = "Write 'joint-plane level'";
  if (jointPlane) return { title, edits: [{ range: jointPlane.range, text: 'level' }] };
  if (!jointStraight) return null;
  const { end } = jointStraight.statement;
  return { title, edits: [{ range: { start: end, end }, text: '\n  joint-plane level' }] };
}
