import { isOne } from '../../../core/language/lists.ts';
import { decimal, significant } from '../../../core/language/numbers.ts';
import { quoted } from '../../../core/language/text/quoted.ts';
import type { LayoutRefusal } from '../../../core/winding/generate.ts';
import type * as Layout from '../../../core/winding/layoutFindingKinds.ts';
import type * as Paths from '../../../core/winding/paths/pathFindingKinds.ts';
import { counted, listed } from '../counts.ts';
import { place } from '../phrases.ts';
import type { Wordings } from '../wordings.ts';

function some(values: readonly (number | string)[], most = 12): string {
  const shown = values.slice(0, most).join(', ');
  return values.length > most ? `${shown} ...` : shown;
}

const slots = (count: number | string) => counted(count, 'Nut', 'Nuten');

function nearest(counts: readonly number[]): string {
  return counts.length > 0 ? ` Nächste Nutenzahlen, mit denen es geht: ${some(counts)}.` : '';
}

function refused(why: LayoutRefusal): string {
  switch (why.kind) {
    case 'unbalanced': {
      const { coils, share, commonDivisor, quotient, coilsAre } = why.rule;
      const things =
        coilsAre === 'slots' ? slots(coils) : `${counted(coils, 'Spule', 'Spulen')} (die Hälfte der Nuten)`;
      return `Es gibt keine ausgeglichene Anordnung: ${things} / (${share} x ${commonDivisor}) = ${quotient} muss eine ganze Zahl sein.${nearest(why.nearestSlots)}`;
    }
    case 'slots-odd':
      return `Zahnspulen in einer Schicht brauchen eine gerade Nutenzahl, nicht ${why.slots}.${nearest(why.nearestSlots)}`;
    case 'odd-layers':
      return `Eine erzeugte Anordnung hat 1, 2, 4, 6 ... Schichten, nicht ${why.layers}; ungerade Zahlen von Schichten schreiben Sie Zeile für Zeile.`;
    case 'belt-refused':
      return `Die Zone kann ${why.allowed.map((belt) => `${decimal(belt, 2)} edeg`).join(' oder ')} breit sein, nicht ${decimal(why.belt, 4)} edeg.`;
    case 'two-sets-need-30':
      return `Eine erzeugte Anordnung zweier Sätze braucht sie 30 edeg versetzt, nicht ${decimal(why.apart, 4)}; andere Winkel schreiben Sie Zeile für Zeile.`;
    case 'span-out-of-range':
      return `Der Schritt liegt von 1 bis ${why.slots - 1} Nuten, nicht bei ${why.span}.`;
    case 'span-does-not-close':
      return why.spansThatDo.length > 0
        ? `In einer Schicht führt ein Schritt von ${why.span} nicht jeden + Stab zu einem - Stab seines Strangs; Schritte, die es tun: ${some(why.spansThatDo)}.`
        : 'In einer Schicht führt hier kein Schritt jeden + Stab zu einem - Stab seines Strangs; nehmen Sie zwei Schichten, oder schreiben Sie die Zeile.';
    case 'span-links-no-fundamental':
      return `Ein Schritt von ${slots(why.span)} verkettet kein Grundfeld: Er ist ein Vielfaches von zwei Polteilungen (${slots(decimal(2 * why.polePitch))}).`;
    case 'stagger-cancels-fundamental':
      return `Ein Versatz von ${slots(why.stagger)} über ${counted(why.pairs, 'Schichtpaar', 'Schichtpaare')} hebt die Grundwelle auf.`;
  }
}

/** What the making of a winding reports. */
export const layout: Wordings<typeof Layout> = {
  rowLength: [
    'row-length',
    ({ layer, places, slots: all }) =>
      `Die Zeile von Schicht ${layer} hat ${counted(places, 'Platz', 'Plätze')}; die Maschine hat ${all} Nuten.`,
  ],
  phaseUnknown: [
    'phase-unknown',
    ({ phase, names }) => `Es gibt keinen Strang ${quoted(phase)}; die Stränge sind ${names.join(' ')}.`,
  ],
  layerMissing: [
    'layer-missing',
    ({ layer }) =>
      `Schicht ${layer} ist nicht beschrieben; schreiben Sie ihre Zeile, oder leiten Sie sie von einer anderen ab.`,
  ],
  layerCircular: [
    'layer-circular',
    ({ layer, from }) =>
      `Schicht ${layer} ist von Schicht ${from} abgeleitet, was zu keiner geschriebenen Zeile führt.`,
  ],
  layoutEmpty: [
    'layout-undetermined',
    () => "Die Anordnung braucht einen Spulenschritt, wie in 'span 6', oder eine Zeile je Schicht.",
  ],
  layoutTwofold: [
    'layout-twofold',
    ({ word }) => `${quoted(word)} gehört zu einer erzeugten Anordnung, diese aber steht Zeile für Zeile da.`,
  ],
  layoutRefused: ['layout-refused', refused],
  gapLengthsExtra: [
    'gap-lengths',
    ({ word }) => `${quoted(word)} hat zwei Längen, aber es gibt einen Luftspalt; zwei sind für 'gap both'.`,
  ],
  speedDisagrees: [
    'speed-disagrees',
    ({ frequency, speed, expected }) =>
      `${significant(speed * 60, 6)} rpm ergeben ${significant(expected, 6)} Hz, nicht ${significant(frequency, 6)} Hz; geben Sie Drehzahl oder Frequenz an.`,
  ],
  connectionMissing: [
    'connection-missing',
    () => "Sagen Sie, wie die Stränge verbunden sind: 'star', 'star joined', 'delta' oder 'open'.",
  ],
  connectionRepeated: [
    'connection-repeated',
    ({ word, first }) => `${quoted(word)} nach ${quoted(first)}: Die Stränge sind auf eine Weise verbunden.`,
  ],
};

/** `Zweig U 2`, at the beginning of a sentence too: German nouns are capitals anyway. */
const who = place;

// A message tells so many bars one by one.
const mostTold = 3;

/** What the walking of written paths reports. */
export const paths: Wordings<typeof Paths> = {
  terminalWrong: [
    'terminal-wrong',
    ({ terminal, phase, expected, end }) =>
      `Ein Zweig von Strang ${phase} ${end === 'from' ? 'beginnt an' : 'endet an'} ${expected}, nicht an ${quoted(terminal)}.`,
  ],
  pathNumberRepeated: [
    'path-number-repeated',
    ({ phase, number }) => `Strang ${phase} hat schon einen Zweig ${number}.`,
  ],
  pathStartsWithHop: [
    'path-start-unknown',
    () => 'Ein Zweig beginnt mit einem Platz, wie in 1a; Sprünge können folgen.',
  ],
  positionOutside: [
    'position-outside',
    ({ position, slots: all }) =>
      `Es gibt keinen Platz ${quoted(position)}: Die Maschine hat die Nuten 1 bis ${all}.`,
  ],
  hopTooLong: [
    'hop-too-long',
    ({ hop, slots: all }) =>
      `Der Sprung ${quoted(hop)} ist eine volle Umdrehung oder mehr; er muss unter ${slots(all)} bleiben.`,
  ],
  pieceMisplaced: [
    'piece-misplaced',
    () => "'|' steht zwischen zwei Schritten: Es macht ihre Verbindung zu einem eigenen Verbindungsstück.",
  ],
  copySourceMissing: [
    'copy-without-paths',
    ({ phase }) => `Strang ${phase} hat keine geschriebenen Zweige zum Kopieren.`,
  ],
  copyTargetTaken: ['copy-onto-paths', ({ phase }) => `Strang ${phase} hat schon Zweige.`],
  barUsedTwice: [
    'bar-used-twice',
    ({ path, bars, count, total, other, itself }) => {
      if (itself)
        return count === 1
          ? `${who(path)} durchläuft den Stab ${bars} zweimal.`
          : `${who(path)} durchläuft ${count} seiner Stäbe zweimal: ${bars}.`;
      if (count === 1) return `Der Stab ${bars} von ${who(path)} wird schon von ${who(other)} benutzt.`;
      return count === total
        ? `${who(path)} liegt, wo die Stäbe von ${who(other)} sind: Alle ${total} Stäbe sind schon benutzt (${bars}).`
        : `${count} der ${total} Stäbe von ${who(path)} werden schon von ${who(other)} benutzt: ${bars}.`;
    },
  ],
  senseAgainstTable: [
    'sense-against-layout',
    ({ path, bars, places, total, cause, fit }) => {
      const first = places[0]!;
      if (places.length === 1)
        return `${who(path)} durchläuft den Stab ${first.bar} als ${first.walked}, die Anordnung aber hat dort ${first.table}.`;
      const hint = fit === null ? '' : ` 'shift ${fit}' passt zur Anordnung.`;
      if (cause?.own)
        return `${who(path)} durchläuft alle ${total} Stäbe im umgekehrten Sinn der Anordnung: ${bars}.${hint}`;
      if (cause) {
        const sense = cause.opposite ? ' im umgekehrten Sinn' : '';
        return `${who(path)} liegt, wo die Anordnung Strang ${cause.phase}${sense} hat: alle ${total} Stäbe (${bars}).${hint}`;
      }
      const told = places
        .slice(0, mostTold)
        .map(({ bar, walked, table }) => `${bar} als ${walked}, wo sie ${table} hat`)
        .join(', ');
      const rest = places.length > mostTold ? ` und ${places.length - mostTold} weitere` : '';
      return `${who(path)} durchläuft ${places.length} seiner ${total} Stäbe anders als die Anordnung: ${told}${rest}.${hint}`;
    },
  ],
  layoutAgainstPaths: [
    'layout-against-paths',
    ({ bars, count }) =>
      `Die geschriebenen Zweige durchlaufen ${count === 1 ? 'einen Stab' : `${count} Stäbe`} anders, als die Anordnung sagt: ${bars}.`,
  ],
  barUnused: [
    'bar-unused',
    ({ bars, count, short, pathless }) => {
      const unused = isOne(count)
        ? `der Stab ${bars} gehört zu keinem Zweig.`
        : `${count} Stäbe gehören zu keinem Zweig: ${bars}.`;
      if (short) {
        const has = `Zweig ${short.path} hat${short.copied ? ', wie seine Kopien,' : ''}`;
        return `${has} ${counted(short.bars, 'Stab', 'Stäbe')}, wo ein gleicher Anteil ${significant(short.share)} ist; ${unused}`;
      }
      if (pathless.length === 0) return unused.charAt(0).toUpperCase() + unused.slice(1);
      const named = `${isOne(pathless.length) ? 'Strang' : 'Die Stränge'} ${listed(pathless)}`;
      return `${named} ${isOne(pathless.length) ? 'hat' : 'haben'} keinen Zweig; ${unused}`;
    },
  ],
  pathEndSide: [
    'path-end-side',
    ({ path, bars, ends }) =>
      ends === 'far'
        ? `Zweig ${path} hat ${counted(bars, 'Stab', 'Stäbe')} und endet auf der Gegenseite; schreiben Sie 'far' hinter seine Klemme, oder fügen Sie einen Stab an.`
        : `Zweig ${path} hat ${counted(bars, 'Stab', 'Stäbe')} und endet auf der Schaltseite, nicht auf der Gegenseite.`,
  ],
};
