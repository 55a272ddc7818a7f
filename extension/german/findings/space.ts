import type * as Space from '../../../core/findings/space/findingKinds.ts';
import { atLeast, atMost } from '../../../core/findings/space/freeingLengths.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { capitalized } from '../../../core/language/numbers.ts';
import type { Freed } from '../../../core/space/clearance/freeing.ts';
import { millimeters as told } from '../counts.ts';
import { reason, thing } from '../phrases.ts';
import type { Wordings } from '../wordings.ts';

const orRadius = (bendRadius: number | null) =>
  bendRadius === null ? '' : ` oder ein bend-radius von höchstens ${atMost(bendRadius)}`;

const freeEnds = {
  lead: ['Die Zuleitung', 'Zuleitungen'],
  star: ['Das Sternende', 'Sternenden'],
  piece: ['Der Stab unter einem Verbindungsstück', 'Stäbe unter Verbindungsstücken'],
} as const;

/** `die Krone von 6b`, `der Ring N`, `der Bogen des Stücks 3a–9b`. */
function part(piece: string, name: string): string {
  if (name.startsWith('ring ')) return `der Ring ${name.slice(5)}`;
  return name.includes('–') ? `${thing(piece)} des Stücks ${name}` : `${thing(piece)} von ${name}`;
}

const both = ({ bars, pieces }: { bars: readonly [string, string]; pieces: readonly [string, string] }) =>
  `${part(pieces[0], bars[0])} und ${part(pieces[1], bars[1])}`;

const pairs = (count: number) => (count === 1 ? 'ein Paar von Stäben' : `${count} Paare von Stäben`);

interface Collision {
  readonly freed: Freed | null;
  readonly bars: readonly string[];
  readonly pieces: readonly string[];
  readonly crowns: boolean;
}

function freedBy({ freed, bars, pieces, crowns }: Collision): string {
  if (!freed && (bars.some((name) => name.startsWith('ring ')) || pieces.every((kind) => kind === 'lead')))
    return 'Kein Abstand befreit sie: Die Ringe haben keine Plätze, zu denen alle ihre Enden aneinander vorbeikommen. Zuleitungen, die unter den Ringen enden, kleinere Ringe oder Zweige, die in anderen Schichten beginnen und enden, können es.';
  if (!freed && pieces.includes('crown'))
    return 'Kein versuchter Abstand und kein Flachkant-Biegeradius befreit sie: eine Zwischenlage zwischen den Schichten in einer ebenso viel tieferen Nut, niedrigere oder schmalere Stäbe oder längere Schritte können es.';
  if (!freed)
    return `Kein versuchter Abstand befreit sie: ${crowns ? "besondere Schritte in den Kronen ('specials crowns'), " : ''}eine andere Verschaltung, schmalere Stäbe oder kürzere Verbindungen können es.`;
  const words = freed.map((step) => {
    const value =
      step.bound === 'least' ? `mindestens ${atLeast(step.value)}` : `höchstens ${atMost(step.value)}`;
    return `${step.word === 'flat' ? 'ein Flachkant-Biegeradius' : `ein ${step.word}`} von ${value}`;
  });
  return `${capitalized(words.join(' und '))} ${freed.length === 1 ? 'befreit' : 'befreien'} sie.`;
}

const pieces = (joints: readonly number[]) => {
  const more = joints.length > 4 ? ` und ${joints.length - 4} weiteren` : '';
  return joints.length === 1
    ? `Das Verbindungsstück von Verbindung ${joints[0]}`
    : `Die Verbindungsstücke der Verbindungen ${joints.slice(0, 4).join(', ')}${more}`;
};

/** Bars in space. */
export const space: Wordings<typeof Space> = {
  separatorMisplaced: [
    'separator-misplaced',
    ({ layers, reason: why }) => {
      const names = `${layerLetter(layers[0])} und ${layerLetter(layers[1])}`;
      switch (why) {
        case 'not-neighbors':
          return `Die Schichten ${names} liegen nicht nebeneinander: Eine Zwischenlage steht zwischen zwei benachbarten Schichten, etwa b und c.`;
        case 'other-slot':
          return `Die Schichten ${names} liegen nicht beide in dieser Nut.`;
        case 'repeated':
          return `Die Schichten ${names} haben schon eine Zwischenlage.`;
      }
    },
  ],
  bendInSlot: [
    'bend-in-slot',
    ({ side, layer, lacking, endStraight, bendRadius }) =>
      `Die Biegungen der Schicht ${layerLetter(layer)} auf der ${thing(side)} würden ${told(lacking)} innerhalb des Blechpakets beginnen. Ein end-straight von ${atLeast(endStraight)}${orRadius(bendRadius)} hält sie heraus.`,
  ],
  bendInJoint: [
    'bend-in-joint',
    ({ side, layer, lacking, jointStraight, bendRadius }) =>
      `Die Biegungen vor den Verbindungen der Schicht ${layerLetter(layer)} auf der ${thing(side)} brauchen ${told(lacking)} mehr, als das gerade Stück der Verbindung hat. Ein joint-straight von ${atLeast(jointStraight)}${orRadius(bendRadius)} nimmt sie auf.`,
  ],
  bendRadiusTooLarge: [
    'bend-radius-too-large',
    ({ side, layer, lacking, bendRadius }) =>
      `Die Biegungen an beiden Enden der Schenkel von Schicht ${layerLetter(layer)} auf der ${thing(side)} brauchen ${told(lacking)} mehr, als der kürzeste Schenkel hat.${bendRadius === null ? ' Kein Biegeradius passt: Der Schenkel ist für Stäbe dieser Breite zu kurz.' : ` Ein bend-radius von höchstens ${atMost(bendRadius)} passt.`}`,
  ],
  stepDoesNotFit: [
    'radial-step-does-not-fit',
    ({ side, layer, lacking, flatRadius }) =>
      `Der radiale Versatz der Schicht ${layerLetter(layer)} auf der ${thing(side)} braucht ${told(lacking)} mehr, als ihr Schenkel hat.${flatRadius === null ? '' : ` Mit einem Flach-Biegeradius von höchstens ${atMost(flatRadius)} passt er.`}`,
  ],
  bendTight: [
    'bend-tight',
    ({ radius, width }) =>
      `Ein Biegeradius von ${told(radius, width)} liegt unter der Breite der Stäbe, ${told(width, radius)}: So scharfe Biegungen strapazieren Lack und Metall.`,
  ],
  hairpinLegsDiffer: [
    'hairpin-legs-differ',
    ({ legs: [one, other] }) =>
      `Kronen verbinden die Schichten ${layerLetter(one.layer)} und ${layerLetter(other.layer)}, deren Stäbe verschieden sind: ${told(one.width, other.width)} x ${told(one.height, other.height)} und ${told(other.width, one.width)} x ${told(other.height, one.height)}. Ein Hairpin hat einen Querschnitt: Geben Sie beiden Schichten denselben, oder verbinden Sie gerade Stäbe ('form straight').`,
  ],
  crownsCross: [
    'crowns-cross',
    ({ joints, count, always }) =>
      `${count} Kronen liegen in einer Schicht und kreuzen einander, etwa ${joints}: Starre Hairpins lassen sich so nicht setzen${always ? ', und keine Verschaltung dieser Schicht hat Kronen, die sich nicht kreuzen' : ''}. Spulen mit ihren Seiten in zwei Schichten ('layers 2') haben keine, auch nicht gerade Stäbe ('form straight'), durch Stücke übereinander verbunden${always ? ', oder Spulen um einzelne Zähne' : '; andere Zweige können es vermeiden'}.`,
  ],
  leadWithoutPlace: [
    'lead-without-place',
    ({ side, use, bars, count, endClearance }) =>
      `${count === 1 ? freeEnds[use][0] : `${count} ${freeEnds[use][1]}`} ${bars} ${count === 1 ? 'hat' : 'haben'} keinen Platz unter den Verbindungsspitzen der ${thing(side)}: Bei halbem regelmäßigem Schritt und eine halbe Nut nach beiden Seiten stehen andere Spitzen zu nah. ${endClearance === null ? 'Kein Abstand hilft; andere Zweigenden oder schmalere Stäbe schon.' : `Ein end-clearance von höchstens ${atMost(endClearance)} lässt Platz.`}`,
  ],
  jointPlanesDiffer: [
    'joint-planes-differ',
    ({ side, lowest, highest }) =>
      `Die Verbindungen der ${thing(side)} enden in Höhen von ${told(lowest)} bis ${told(highest)} über dem Blechpaket.`,
  ],
  pieceCornersTight: [
    'piece-corners-tight',
    ({ joint, radius, asked }) =>
      radius < 0
        ? `Die Füße des Verbindungsstücks von Verbindung ${joint} stehen näher beieinander, als das Stück hoch ist: Es lässt sich nicht biegen.`
        : `Die Füße des Verbindungsstücks von Verbindung ${joint} stehen so nah beieinander, dass seine Ecken einen Innenradius von ${atMost(radius)} haben, nicht ${told(asked)}.`,
  ],
  piecesWithoutRoom: [
    'pieces-without-room',
    ({ side, joints, width }) =>
      `${pieces(joints)} auf der ${thing(side)} ${joints.length === 1 ? 'findet' : 'finden'} keinen Weg an Zuleitungen und anderen Stücken vorbei: Ein Stück nimmt radial ${told(width)} ein, und alle Bahnen von der Achse bis hinter die Wicklung sind belegt. Ein kleineres 'piece-width' oder 'piece-clearance', oder Zweige mit weniger Stücken, lassen Platz.`,
  ],
  piecesOverGap: [
    'pieces-over-gap',
    ({ side, joints, reach }) =>
      `${pieces(joints)} auf der ${thing(side)} ${joints.length === 1 ? 'reicht' : 'reichen'} über den Luftspalt, um bis zu ${told(reach)}: Dort kommt kein Läufer vorbei. Ein kleineres 'piece-width', oder Zweige mit weniger Stücken, können hinter der Wicklung Platz lassen.`,
  ],
  ringOverGap: [
    'ring-over-gap',
    ({ ring, side, reach }) =>
      `Der Ring von ${ring} auf der ${thing(side)} reicht über den Luftspalt, um ${told(reach)}: Dort kommt kein Läufer vorbei. Ein kleineres 'ring-width', oder weniger Ringe, können über der Wicklung Platz lassen.`,
  ],
  ringSizeMissing: ['ring-size-missing', ({ needs }) => `Ringe brauchen im Block bar ${reason(needs)}.`],
  endsCollide: [
    'ends-collide',
    (data) => {
      const where = `Auf der ${thing(data.side)} laufen ${both(data)} ${told(-data.distance)} ineinander; so stoßen ${pairs(data.count)} zusammen.`;
      return data.assumed === null
        ? `${where} ${freedBy(data)}`
        : `${where} Der Biegeradius ist angenommen, ${told(data.assumed)}: Schreiben Sie 'bend-radius', damit er beurteilt wird.`;
    },
  ],
  endsClose: [
    'ends-close',
    (data) =>
      `Auf der ${thing(data.side)} kommen sich ${both(data)} bis auf ${told(Math.max(0, data.distance), data.asked)} nahe, wo ${told(data.asked, data.distance)} verlangt sind; so nah sind sich ${pairs(data.count)}.`,
  ],
};
