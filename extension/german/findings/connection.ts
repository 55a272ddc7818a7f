import type * as Connection from '../../../core/findings/connection/findingKinds.ts';
import { atLeast, atMost, canBeTold } from '../../../core/findings/space/freeingLengths.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { isOne } from '../../../core/language/lists.ts';
import { percent, significant } from '../../../core/language/numbers.ts';
import type { DivisorCondition, RouteRefusal } from '../../../core/routing/route.ts';
import { counted, layersNamed, listed, millimeters as told } from '../counts.ts';
import { place, thing } from '../phrases.ts';
import type { Wordings } from '../wordings.ts';

const parallelPaths = (count: number) => counted(count, 'paralleler Zweig', 'parallele Zweige');

const pairs = (count: number) => counted(count, 'Paar', 'Paare');
const bars = (count: number) => counted(count, 'Stab', 'Stäbe');

const groups: Readonly<Record<DivisorCondition['what'], (count: number) => string>> = {
  'bars-of-equal-voltage': (count) => `${pairs(count)} von Stäben gleicher Spannung`,
  'bars-of-equal-voltage-in-a-layer': (count) =>
    `${pairs(count)} von Stäben gleicher Spannung in einer Schicht`,
  'bars-in-a-layer-pair': (count) => `${pairs(count)} von Stäben in einem Schichtpaar`,
  'single-bars-of-equal-voltage': (count) => `${bars(count)} gleicher Spannung`,
  'single-bars-of-equal-voltage-in-a-layer': (count) => `${bars(count)} gleicher Spannung in einer Schicht`,
};

const specials = {
  joined: 'in den verbundenen Schenkeln',
  crowns: 'in den Kronen',
  either: 'in verbundenen Schenkeln und Kronen',
} as const;

function refusal(why: RouteRefusal, phases: readonly string[]): string {
  switch (why.kind) {
    case 'no-constant-span':
      return `in ${layersNamed(why.layers)} führt kein fester Schritt jeden + Stab zu einem - Stab seines Strangs`;
    case 'phase-without-bars':
      return `Strang ${phases[why.phase]} hat keine Stäbe`;
    case 'paths-do-not-divide': {
      const failing = why.failing.map(({ what, count }) => groups[what](count));
      const strict = why.strict
        ? ' (Nuten enthalten zwei Stränge, also braucht jeder Zweig jeden Platz gleich oft)'
        : '';
      if (failing.length === 0)
        return `es fand sich keine Aufteilung der Stäbe gleicher Spannung auf ${why.paths} gleiche Zweige${strict}`;
      return `${why.paths} teilt ${listed(failing)} nicht${strict}`;
    }
    case 'bars-do-not-divide':
      return `${why.paths} Zweige teilen die Stäbe gleicher Spannung und jeder Schicht nicht auf, wie auch die Kronen liegen`;
    case 'none-met':
      return `mit besonderen Schritten ${specials[why.specials]} wurde keine gefunden, obwohl es eine geben kann`;
  }
}

function regular(asked: number, why: RouteRefusal, phases: readonly string[]): string {
  const crowns =
    why.kind === 'none-met' || why.kind === 'bars-do-not-divide' ? '' : ' mit regelmäßigen Kronen';
  const refused = `${parallelPaths(asked)}${crowns} ${isOne(asked) ? 'geht' : 'gehen'} nicht: ${refusal(why, phases)}.`;
  if (why.kind !== 'paths-do-not-divide') return refused;
  const nearest = why.nearest.length > 0 ? ` Nächste Zahlen, die gehen: ${why.nearest.join(', ')}.` : '';
  return `${refused}${nearest} Alle, die damit gehen: ${why.possible.join(', ')}.`;
}

function special(asked: number, why: RouteRefusal, anyCrowns: readonly number[], oneLayer: boolean): string {
  const spanless = why.kind === 'no-constant-span';
  const onlyWritten = (oneLayer || spanless) && why.kind !== 'bars-do-not-divide';
  if (why.kind === 'none-met' && !oneLayer) return 'Geschriebene Zweige können es.';
  if (anyCrowns.includes(asked)) {
    if (!onlyWritten)
      return `Mit besonderen Kronen ${isOne(asked) ? 'geht' : 'gehen'} ${parallelPaths(asked)}: schreiben Sie specials either.`;
    const because = spanless ? '' : '; in einer einzigen Schicht nimmt route nur Spulen eines Schritts';
    return `Geschriebene Zweige mit Kronen anderer Schritte erlauben ${parallelPaths(asked)}${because}.`;
  }
  const possible = why.kind === 'paths-do-not-divide' ? why.possible : [];
  const more = anyCrowns.filter((count) => !possible.includes(count));
  if (more.length === 0) return 'Besondere Kronen lassen keine anderen Zahlen zu.';
  return `Auch mit besonderen Kronen nicht; ${possible.length > 0 ? 'außer diesen ' : ''}lassen sie ${more.join(', ')}${onlyWritten ? ' als geschriebene Zweige' : ''} zu.`;
}

const shareOf = (ratio: number, of: string) =>
  ratio > 1 ? `das ${significant(ratio, 3)}-fache ${of}` : `${percent(ratio, 3)} ${of}`;

function inAll(phases: readonly number[]): string {
  if (phases.length === 1) return '';
  const least = Math.min(...phases);
  const most = Math.max(...phases);
  return ` insgesamt, ${least === most ? least : `${least} bis ${most}`} je Strang`;
}

const sideOf = (side: string) => thing(side);

/** What a connected winding reports. */
export const connection: Wordings<typeof Connection> = {
  routingRefused: [
    'routing-refused',
    ({ asked, reason, phases, anyCrowns, oneLayer }) =>
      `${regular(asked, reason, phases)} ${special(asked, reason, anyCrowns, oneLayer)}`,
  ],
  crownsTaken: [
    'special-crowns-taken',
    ({ asked }) =>
      `${parallelPaths(asked)} ${isOne(asked) ? 'geht' : 'gehen'} mit regelmäßigen Kronen nicht, darum liegen besondere Schritte auch in Kronen; specials either sagt es, specials joined lehnt es ab.`,
  ],
  limitDecides: [
    'limit-decides-connection',
    ({ what, otherwise }) =>
      `${what} entscheidet die Verschaltung: Ohne Grenzen hätte die beste ${otherwise}.`,
  ],
  anotherOffered: [
    'connection-offered',
    ({ kept, offered }) =>
      `Mit den jetzigen Maßen ist ${offered} die beste Verschaltung; ${kept}, früher gefunden, bleibt, bis jene übernommen oder diese ausgeschrieben wird.`,
  ],
  farEnd: [
    'path-end-on-far-side',
    ({ path, end }) =>
      `Zweig ${path} ${thing(end)} auf der Gegenseite; bei Hairpins braucht das einen einzelnen Stab.`,
  ],
  leanCollision: [
    'lean-collision',
    ({ bars, count, hop }) => {
      const joints = isOne(count)
        ? `Die Verbindung ${bars} neigt sich`
        : `${count} Verbindungen ${bars} neigen sich`;
      return hop === null
        ? `${joints} gegen die anderen Stabenden einer Schicht; schreiben Sie | vor den Schritt, für ein eigenes Verbindungsstück.`
        : `${joints} gegen die anderen Stabenden einer Schicht: Ein Platz sagt nicht, wie herum; schreiben Sie den Sprung ${hop}, um andersherum zu gehen.`;
    },
  ],
  jumperNeeded: [
    'jumpers',
    ({ bars, count, phases, crossing }) =>
      `${counted(count, 'eigenes Verbindungsstück', 'eigene Verbindungsstücke')}${inAll(phases)}${crossing ? (isOne(count) ? ', das den Wickelkopf quert' : ', die den Wickelkopf queren') : ''}: ${bars}.`,
  ],
  farSideSpecial: [
    'special-joint-on-far-side',
    ({ bars, count, phases }) =>
      `${counted(count, 'Sonderverbindung', 'Sonderverbindungen')}${inAll(phases)}${phases.length > 1 ? ',' : ''} auf der Gegenseite: ${bars}.`,
  ],
  jointWithoutSpan: ['joint-without-span', ({ bars }) => `Die Verbindung ${bars} bleibt in ihrer Nut.`],
  pathsUnequal: [
    'paths-unequal-voltage',
    ({ phase, difference, worst, circulating, deviation }) => {
      const flows =
        circulating === null
          ? ''
          : `, was einen Kreisstrom treibt: ${shareOf(circulating, 'des Zweigstroms')}`;
      const atLoad =
        deviation === null || deviation < 0.01
          ? ''
          : `; unter Last weichen die Zweigströme um bis zu ${shareOf(deviation, 'eines gleichen Anteils')} ab`;
      return `Die parallelen Zweige von Strang ${phase} haben ungleiche Spannungen: ${place(worst)} weicht um ${shareOf(difference, 'des Mittels')} ab${flows}${atLoad}.`;
    },
  ],
  pathCurrentsUnequal: [
    'path-currents-unequal',
    ({ deviation }) =>
      `Die Ströme paralleler Zweige weichen unter Last um bis zu ${shareOf(deviation, 'eines gleichen Anteils')} ab: Ihr Widerstand, ihre Nutstreuung oder ihr Spaltfeld ist nicht gleich.`,
  ],
  occupationUnequal: [
    'layer-occupation-unequal',
    ({ phase, path, cells, split, alone }) => {
      const cause = alone ? 'Allein die Nutstreuung lässt' : 'Widerstand, Nutstreuung und Spaltfeld lassen';
      const effect =
        split === null
          ? ''
          : ` ${cause} die Zweigströme um bis zu ${shareOf(split, 'eines gleichen Anteils')} abweichen (obere Schätzung).`;
      return `Zweig ${path} von Strang ${phase} belegt ${cells ? 'die Plätze der Schichten' : 'die Schichten'} anders als sein erster Zweig.${effect}`;
    },
  ],
  jumperLevelsMany: [
    'jumper-levels',
    ({ levels }) =>
      `Die Verbindungsstücke aller Stränge brauchen ${counted(levels, 'Ebene', 'Ebenen')} über dem Wickelkopf.`,
  ],
  accessBlocked: [
    'joints-hide-each-other',
    ({ joints }) =>
      `Die Verbindungen ${joints} verdecken einander im Kreis: Keine kann zuerst gesetzt werden.`,
  ],
  innerLead: [
    'lead-in-inner-layer',
    ({ paths, count }) =>
      `${counted(count, 'Zuleitung', 'Zuleitungen')} in einer Schicht zwischen anderen: ${paths.replaceAll(' in layer ', ' in Schicht ').replaceAll(/ and (\d+) more$/g, ' und $1 weitere')}.`,
  ],
  mixedRadius: [
    'starts-at-mixed-radius',
    ({ phases, layers }) =>
      `Die Zweige jedes Strangs (${phases}) beginnen in verschiedenen Schichten: ${layers}.`,
  ],
  wideTerminals: [
    'terminals-apart',
    ({ degrees }) =>
      `Die Anfänge der Zweige verteilen sich über ${significant(degrees, 4)} mechanische Grad.`,
  ],
  phaseVoltagesUnequal: [
    'phase-voltages-unequal',
    ({ phase, difference }) =>
      `Die Spannung von Strang ${phase} weicht um ${percent(difference, 3)} von ihrem Platz im Stern ab.`,
  ],
  voltageInSlotHigh: [
    'voltage-in-slot-high',
    ({ value, bars, side }) =>
      `Zwischen den benachbarten Stäben ${place(bars)} eines Strangs stehen ${percent(value, 3)} der Strangspannung (${sideOf(side)}).`,
  ],
  phaseInsulation: [
    'phase-insulation-needed',
    ({ value, bars, common }) =>
      `Nuten enthalten zwei Stränge: bis zu ${percent(value, 3)} der Strangspannung zwischen benachbarten Stäben (${place(bars)}${common === null ? '' : `, ${thing(common)} auf einem Potential angenommen`}); Phasenisolation ist nötig.`,
  ],
  tipsTooClose: [
    'joint-tips-close',
    ({ side, gap, room }) => {
      const as = 'wie sie auch gebogen werden';
      if (gap === 0)
        return `Auf der ${sideOf(side)} fallen zwei Verbindungsspitzen auf denselben Platz, ${as}.`;
      if (room === null)
        return `Auf der ${sideOf(side)} kommen sich Verbindungsspitzen bis auf ${significant(gap, 3)} Nutteilungen nahe, ${as}.`;
      const { layer, actual, needed, left } = room;
      const near = `Auf der ${sideOf(side)} kommen sich Verbindungsspitzen der Schicht ${layerLetter(layer)} bis auf ${told(actual, needed)} nahe, ${as}`;
      const need = `Breite mit Lack und Abstand brauchen ${told(needed, actual)}.`;
      return actual < needed
        ? `${near}; ${need} ${canBeTold(left) ? `Ein end-clearance von höchstens ${atMost(left)} oder ` : ''}Stäbe, die um mindestens ${atLeast(needed - actual)} schmaler sind, lassen Platz.`
        : `${near}, weniger als eine Nutteilung; ${need}`;
    },
  ],
  legsOvertake: [
    'legs-cross',
    ({ side, bars: [longer, shorter], count, jointStraight, crowns }) => {
      const where = `Auf der ${sideOf(side)} läuft der Schenkel von ${longer} durch die Verbindung von ${shorter}, wie sie auch gebogen werden${count > 1 ? `; ${count} Paare von Schenkeln kreuzen sich so` : ''}.`;
      const spans = 'Schritte, die weniger vom regelmäßigen abweichen, halten sie auseinander';
      const freed =
        jointStraight === null
          ? crowns
            ? `${spans}, oder besondere Schritte in den Kronen ('specials crowns'), die übereinander stehen.`
            : `${spans}.`
          : `Mit einem joint-straight von höchstens ${significant(Math.floor(jointStraight * 1e5) / 100, 4)} mm laufen die längeren Schenkel darüber hinweg.`;
      return `${where} ${freed}`;
    },
  ],
  legsApart: [
    'legs-bent-apart',
    ({ count }) =>
      isOne(count)
        ? '1 Hairpin-Schenkel hat einen anderen Schritt als der Rest seiner Schicht und wird darum einzeln gebogen, nicht mit dem Ring.'
        : `Insgesamt ${count} Hairpin-Schenkel haben einen anderen Schritt als der Rest ihrer Schicht und werden darum einzeln gebogen, nicht mit dem Ring.`,
  ],
};
