import { findingKind } from '../../language/finding.ts';
import { layerLetter } from '../../language/layerLetters.ts';
import { firstOf } from '../../language/lists.ts';
import { capitalized } from '../../language/numbers.ts';
import type { ClearanceKind } from '../../space/clearance/clearance.ts';
import type { Freed, FreeingStep } from '../../space/clearance/freeing.ts';
import { bothWords, sideWords, toldLength as told } from '../../space/clearance/placeWords.ts';
import type { EndSide } from '../../winding/model.ts';
import { atLeast, atMost } from './freeingLengths.ts';

export const separatorMisplaced = findingKind<{
  layers: readonly [number, number];
  reason: 'not-neighbors' | 'other-slot' | 'repeated';
}>({
  code: 'separator-misplaced',
  severity: 'error',
  help: 'A separator lies between two neighboring layers of its slot, one between each two.',
  message: ({ layers, reason }) => {
    const names = `${layerLetter(layers[0])} and ${layerLetter(layers[1])}`;
    switch (reason) {
      case 'not-neighbors':
        return `Layers ${names} do not lie next to each other: a separator stands between two neighboring layers, as b and c.`;
      case 'other-slot':
        return `Layers ${names} do not both lie in this slot.`;
      case 'repeated':
        return `Layers ${names} have a separator already.`;
    }
  },
});

interface Bend {
  readonly side: EndSide;
  readonly layer: number;
  readonly lacking: number;
  /** The bend radius with which the bend fits; null: none is known that does. */
  readonly bendRadius: number | null;
}

/** ` or a bend-radius of at most 3.4 mm`; nothing where none fits. */
const orRadius = (bendRadius: number | null) =>
  bendRadius === null ? '' : ` or a bend-radius of at most ${atMost(bendRadius)}`;

export const bendInSlot = findingKind<Bend & { endStraight: number }>({
  code: 'bend-in-slot',
  severity: 'error',
  help: 'A bar bends beyond the stack: its straight part holds the first half of the bend, radius times the tangent of half its angle.',
  message: ({ side, layer, lacking, endStraight, bendRadius }) =>
    `The bends of layer ${layerLetter(layer)} on the ${sideWords(side)} would begin ${told(lacking)} within the stack. An end-straight of ${atLeast(endStraight)}${orRadius(bendRadius)} keeps them out of it.`,
});

export const bendInJoint = findingKind<Bend & { jointStraight: number }>({
  code: 'bend-in-joint',
  severity: 'error',
  help: 'The straight part of a joint holds the second half of the bend before it.',
  message: ({ side, layer, lacking, jointStraight, bendRadius }) =>
    `The bends before the joints of layer ${layerLetter(layer)} on the ${sideWords(side)} take ${told(lacking)} more than the joint's straight part has. A joint-straight of ${atLeast(jointStraight)}${orRadius(bendRadius)} holds them.`,
});

export const bendRadiusTooLarge = findingKind<Bend>({
  code: 'bend-radius-too-large',
  severity: 'error',
  help: 'The bends at both ends of a leg fit into it.',
  message: ({ side, layer, lacking, bendRadius }) =>
    `The bends at both ends of the legs of layer ${layerLetter(layer)} on the ${sideWords(side)} take ${told(lacking)} more than there is of the shortest leg.${bendRadius === null ? ' No bend radius fits: the leg is too short for bars of this width.' : ` A bend-radius of at most ${atMost(bendRadius)} fits.`}`,
});

export const stepDoesNotFit = findingKind<{
  side: EndSide;
  layer: number;
  lacking: number;
  flatRadius: number | null;
}>({
  code: 'radial-step-does-not-fit',
  severity: 'error',
  help: 'Where a bar end changes its layer, two arcs out of the surface carry it there; they lie within its leg.',
  message: ({ side, layer, lacking, flatRadius }) =>
    `The step along the radius of layer ${layerLetter(layer)} on the ${sideWords(side)} takes ${told(lacking)} more than there is of its leg.${flatRadius === null ? '' : ` A flat bend radius of at most ${atMost(flatRadius)} lets it fit.`}`,
});

export const bendTight = findingKind<{ radius: number; width: number }>({
  code: 'bend-tight',
  severity: 'warning',
  help: 'Edgewise bends with an inner radius below the width of the bar stretch coating and metal hard (common practice).',
  message: ({ radius, width }) =>
    `A bend radius of ${told(radius, width)} is below the width of the bars, ${told(width, radius)}: bends as sharp as that are hard on coating and metal.`,
});

interface Section {
  readonly layer: number;
  readonly width: number;
  readonly height: number;
}

const sectionWords = (one: Section, other: Section) =>
  `${told(one.width, other.width)} x ${told(one.height, other.height)}`;

export const hairpinLegsDiffer = findingKind<{ legs: readonly [Section, Section] }>({
  code: 'hairpin-legs-differ',
  severity: 'warning',
  help: 'A hairpin is one bar of one section: layers whose bars crowns join have the same bar width and height.',
  message: ({ legs: [one, other] }) =>
    `Crowns join layers ${layerLetter(one.layer)} and ${layerLetter(other.layer)}, whose bars differ: ${sectionWords(one, other)} and ${sectionWords(other, one)}. A hairpin has one section: give both layers the same, or join straight bars ('form straight').`,
});

export const crownsCross = findingKind<{ joints: string; count: number; always: boolean }>({
  code: 'crowns-cross',
  severity: 'error',
  help: 'Rigid hairpins of one layer that reach over each other would have to pass through each other.',
  message: ({ joints, count, always }) =>
    `${count} crowns lie in one layer and cross each other, such as ${joints}: rigid hairpins cannot be set so${always ? ', and no connection of this layer has crowns that do not cross' : ''}. Coils with their sides in two layers ('layers 2') have none, nor have straight bars ('form straight') joined by pieces above one another${always ? ', nor coils round single teeth' : '; other paths may'}.`,
});

const freeWords = {
  lead: ['lead', 'leads'],
  star: ['star end', 'star ends'],
  piece: ['bar under a connecting piece', 'bars under connecting pieces'],
} as const;

export const leadWithoutPlace = findingKind<{
  side: EndSide;
  use: keyof typeof freeWords;
  bars: string;
  count: number;
  endClearance: number | null;
}>({
  code: 'lead-without-place',
  severity: 'error',
  help: 'Leads, star ends and ends under connecting pieces are bent like their layer and stand clear of all joint tips: at half the regular span, or half a slot more or less.',
  message: ({ side, use, bars, count, endClearance }) =>
    `${count === 1 ? 'The' : count} ${freeWords[use][count === 1 ? 0 : 1]} ${bars} ${count === 1 ? 'has' : 'have'} no place among the joint tips of the ${sideWords(side)}: at half the regular span and half a slot to either side other tips stand too near. ${endClearance === null ? 'No clearance helps; other path ends or narrower bars would.' : `An end-clearance of at most ${atMost(endClearance)} leaves room.`}`,
});

export const jointPlanesDiffer = findingKind<{ side: EndSide; lowest: number; highest: number }>({
  code: 'joint-planes-differ',
  severity: 'info',
  help: 'Joints end as high as their bends make them; with joint-plane level all of a side end in one plane, the highest.',
  message: ({ side, lowest, highest }) =>
    `The joints of the ${sideWords(side)} end at heights from ${told(lowest)} to ${told(highest)} above the stack.`,
});

export const pieceCornersTight = findingKind<{ joint: number; radius: number; asked: number }>({
  code: 'piece-corners-tight',
  severity: 'warning',
  help: 'A connecting piece turns from its risers into its level part; both corners have to fit between its feet.',
  message: ({ joint, radius, asked }) =>
    radius < 0
      ? `The feet of the connecting piece of joint ${joint} stand nearer each other than the piece is high: it cannot be bent.`
      : `The feet of the connecting piece of joint ${joint} stand so near each other that its corners have an inner radius of ${atMost(radius)}, not ${told(asked)}.`,
});

/** `The connecting piece of joint 7`, `The connecting pieces of joints 7, 9 and 3 more`. */
const piecesWords = (joints: readonly number[]) =>
  joints.length === 1
    ? `The connecting piece of joint ${joints[0]}`
    : `The connecting pieces of joints ${firstOf(joints.map(String), 4)}`;

export const piecesWithoutRoom = findingKind<{ side: EndSide; joints: readonly number[]; width: number }>({
  code: 'pieces-without-room',
  severity: 'error',
  graded: ['info'],
  help: 'Connecting pieces run above their feet, or lanes beside them along the radius, so that they pass leads and other pieces.',
  message: ({ side, joints, width }) =>
    `${piecesWords(joints)} on the ${sideWords(side)} ${joints.length === 1 ? 'finds' : 'find'} no way past leads and other pieces: a piece takes ${told(width)} along the radius, and all lanes between the axis and behind the winding are taken. A smaller 'piece-width' or 'piece-clearance', or paths with fewer pieces, leave room.`,
});

const inTheWay = 'What stands over the air gap is in the way of the rotor when it is put in from that side.';

export const piecesOverGap = findingKind<{ side: EndSide; joints: readonly number[]; reach: number }>({
  code: 'pieces-over-gap',
  severity: 'warning',
  help: inTheWay,
  message: ({ side, joints, reach }) =>
    `${piecesWords(joints)} on the ${sideWords(side)} ${joints.length === 1 ? 'reaches' : 'reach'} over the air gap, by up to ${told(reach)}: no rotor passes there. A smaller 'piece-width', or paths with fewer pieces, may leave room behind the winding.`,
});

export const ringOverGap = findingKind<{ ring: string; side: EndSide; reach: number }>({
  code: 'ring-over-gap',
  severity: 'warning',
  help: inTheWay,
  message: ({ ring, side, reach }) =>
    `The ring of ${ring} on the ${sideWords(side)} reaches over the air gap, by ${told(reach)}: no rotor passes there. A smaller 'ring-width', or fewer rings, may leave room over the winding.`,
});

export const ringSizeMissing = findingKind<{ needs: string }>({
  code: 'ring-size-missing',
  severity: 'error',
  help: 'Rings have a section of their own.',
  message: ({ needs }) => `Rings need ${needs} in the bar block.`,
});

interface Near {
  readonly kind: ClearanceKind;
  readonly side: EndSide;
  readonly bars: readonly [string, string];
  readonly pieces: readonly [string, string];
  readonly distance: number;
  readonly count: number;
}

const pairWords = (count: number) => (count === 1 ? 'one pair of bars' : `${count} pairs of bars`);

function freedWords(freed: Freed | null, { bars, pieces, crowns }: Near & { crowns: boolean }): string {
  if (!freed && (bars.some((name) => name.startsWith('ring ')) || pieces.every((kind) => kind === 'lead')))
    return 'No clearance frees them: the rings have no places that all of their ends reach past each other. Leads that end below the rings, smaller rings, or paths that start and end in other layers may.';
  if (!freed)
    return pieces.includes('crown')
      ? 'No clearance and no flat bend radius that was tried frees them: a separator between the layers in a slot as much deeper, bars of less height or width, or longer spans may.'
      : `No clearance that was tried frees them: ${crowns ? "special spans in the crowns ('specials crowns'), " : ''}another connection, narrower bars or shorter joints may.`;
  return `${capitalized(freed.map(stepWords).join(' and '))} ${freed.length === 1 ? 'frees' : 'free'} them.`;
}

function stepWords(step: FreeingStep): string {
  const value = step.bound === 'least' ? `at least ${atLeast(step.value)}` : `at most ${atMost(step.value)}`;
  if (step.word === 'flat') return `a flat bend radius of ${value}`;
  return `${step.word === 'end-clearance' ? 'an' : 'a'} ${step.word} of ${value}`;
}

export const endsCollide = findingKind<
  Near & { freed: Freed | null; assumed: number | null; crowns: boolean }
>({
  code: 'ends-collide',
  severity: 'error',
  graded: ['info'],
  help: 'Coated bar ends, connecting pieces and rings do not pass through each other; layers may touch. An info where a bend radius is assumed.',
  message: (data) => {
    const [one, other] = bothWords(data);
    const where = `On the ${sideWords(data.side)} ${one} and ${other} run ${told(-data.distance)} into each other; ${pairWords(data.count)} ${data.count === 1 ? 'collides' : 'collide'} so.`;
    return data.assumed === null
      ? `${where} ${freedWords(data.freed, data)}`
      : `${where} The bend radius is assumed, ${told(data.assumed)}: write 'bend-radius' to have it judged.`;
  },
});

export const endsClose = findingKind<Near & { asked: number }>({
  code: 'ends-close',
  severity: 'warning',
  graded: ['info'],
  help: 'Coated bar ends of a layer keep the end-clearance from each other, connecting pieces and rings the piece-clearance from all; crowns leave their layer and only must not collide.',
  message: (data) => {
    const [one, other] = bothWords(data);
    return `On the ${sideWords(data.side)} ${one} and ${other} come as near as ${told(Math.max(0, data.distance), data.asked)}, where ${told(data.asked, data.distance)} are asked for; ${pairWords(data.count)} ${data.count === 1 ? 'is' : 'are'} too near so.`;
  },
});

/** Every kind about bars in space. */
export const spaceKinds = [
  separatorMisplaced,
  bendInSlot,
  bendInJoint,
  bendRadiusTooLarge,
  stepDoesNotFit,
  bendTight,
  hairpinLegsDiffer,
  crownsCross,
  leadWithoutPlace,
  jointPlanesDiffer,
  pieceCornersTight,
  piecesWithoutRoom,
  piecesOverGap,
  ringOverGap,
  ringSizeMissing,
  endsCollide,
  endsClose,
];
