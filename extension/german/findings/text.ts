import { mostSlots } from '../../../core/language/counts.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import type * as Odd from '../../../core/language/text/oddCharacters.ts';
import { quoted } from '../../../core/language/text/quoted.ts';
import type * as Text from '../../../core/language/textFindingKinds.ts';
import type * as Vary from '../../../core/language/varyFindingKinds.ts';
import { counted, listed } from '../counts.ts';
import { dimension, expectation, reason, thing } from '../phrases.ts';
import type { Wordings } from '../wordings.ts';

function meant(suggestion: string | undefined): string {
  return suggestion === undefined ? '' : `; ist ‚${suggestion}‘ gemeint?`;
}

const orSo = (words: readonly string[]) => listed(words, 'oder');

function trade({ ours, remark, block, given }: Text.TradeHint): string {
  const place = block === undefined ? 'hier' : `in ${block}`;
  return `${place} heißt es ${quoted(ours)}${remark === undefined ? '' : `, ${remark}`}${given ? ', was schon angegeben ist' : ''}`;
}

/** What the language itself reports. */
export const text: Wordings<typeof Text> = {
  fileTooLarge: [
    'file-too-large',
    ({ bytes, most }) => `Der Text hat ${bytes} Zeichen; höchstens ${most} werden gelesen.`,
  ],
  findingsTooMany: [
    'findings-too-many',
    ({ most }) => `Mehr als ${most} Befunde: Von hier an wird der Text nicht gelesen.`,
  ],
  unclosedString: [
    'string-not-closed',
    () => 'Dieser Text hat auf seiner Zeile kein schließendes Anführungszeichen.',
  ],
  badEscape: [
    'escape-unknown',
    () =>
      'In einem Text folgen auf einen umgekehrten Schrägstrich nur \\" und \\\\; für den Schrägstrich selbst schreiben Sie \\\\.',
  ],
  unknownBlock: [
    'block-unknown',
    ({ text: word, suggestion, elsewhere = [] }) =>
      elsewhere.length > 0
        ? `${quoted(word)} beginnt keinen Block; es gehört in den Block ${orSo(elsewhere.map(quoted))}.`
        : `${quoted(word)} beginnt keinen Block${meant(suggestion)}${suggestion ? '' : '; erwartet wird winding, machine, slot, bar, insulation, layout, connect, duty, require, vary oder sheet.'}`,
  ],
  unknownWord: [
    'word-unknown',
    ({ text: word, block, suggestion, elsewhere, trade: hints = [] }) => {
      if (hints.length > 0)
        return `${quoted(word)} ist kein Wort von ${block}; ${hints.map(trade).join(', ')}.`;
      return elsewhere.length > 0
        ? `${quoted(word)} gehört nicht in ${block}; es gehört in ${orSo(elsewhere)}.`
        : `${quoted(word)} ist kein Wort von ${block}${meant(suggestion)}${suggestion ? '' : '.'}`;
    },
  ],
  layerSourceMissing: [
    'layer-source-missing',
    ({ word, layer, source }) =>
      word === 'layer'
        ? `Vor 'layer' fehlt hier '=', wie in 'layer ${layer} = layer ${source} moved 5'.`
        : `Vor ${quoted(word)} fehlt die Schicht, aus der es folgt: '= layer ${source}', wie in 'layer ${layer} = layer ${source} ${word === 'moved' ? 'moved 5' : word}'.`,
  ],
  expectedValue: [
    'value-expected',
    ({ word, expected, found, example, suggestion, named }) =>
      `Nach ${quoted(word)} wird hier erwartet: ${expectation(expected)}, nicht ${found}${meant(suggestion)}${
        suggestion
          ? ''
          : named === undefined
            ? `; zum Beispiel: ${example}`
            : `; das Wort dafür ist ${quoted(named)}.`
      }`,
  ],
  unexpectedText: [
    'text-unexpected',
    ({ text: word, word: after, example, choices, suggestion }) =>
      `${quoted(word)} hat nach ${quoted(after)} keine Bedeutung${meant(suggestion)}${
        suggestion
          ? ''
          : choices
            ? `; dort steht eines von ${choices.map(quoted).join(', ')}.`
            : `; zum Beispiel: ${example}`
      }`,
  ],
  numberParted: [
    'number-parted',
    ({ written, meant: forms }) =>
      `${quoted(written)} ist hier keine Zahl; geschrieben wird ${forms.join(' oder ')}.`,
  ],
  unitMissing: [
    'unit-missing',
    ({ number, dimension: of, units }) =>
      `${quoted(number)} braucht, nach einem Leerzeichen, eine Einheit für ${dimension(of)} (${units.join(', ')}).`,
  ],
  unitWrong: [
    'unit-wrong',
    ({ unit, dimension: of, units, suggestion }) =>
      units.length === 0
        ? `Hierher gehört keine Einheit: Dies ist eine bloße Zahl, ohne ${quoted(unit)}.`
        : `${quoted(unit)} ist keine Einheit für ${dimension(of)}${suggestion ? meant(suggestion) : `; erwartet wird ${units.join(', ')}.`}`,
  ],
  unitGlued: [
    'unit-without-blank',
    ({ number, unit }) => `Zwischen Zahl und Einheit gehört ein Leerzeichen: ${number} ${unit}`,
  ],
  outOfRange: [
    'value-out-of-range',
    ({ word, name, written, expected, advice }) =>
      `${quoted(word)}${name === undefined ? '' : ` (${expectation(name)})`} nimmt: ${expectation(expected)}, nicht ${quoted(written)}${advice === undefined ? '.' : `; ${expectation(advice)}.`}`,
  ],
  blockNotClosed: [
    'block-not-closed',
    ({ block }) => `Dem Block ${quoted(block)} fehlt die schließende '}'.`,
  ],
  blockNotOpened: ['block-not-opened', ({ block }) => `Der Block ${quoted(block)} braucht hier '{'.`],
  strayBrace: ['brace-unexpected', () => "Diese '}' schließt keinen Block."],
  blockRepeated: [
    'block-repeated',
    ({ block }) => `Ein zweiter Block ${quoted(block)}; jeder steht nur einmal.`,
  ],
  statementRepeated: ['statement-repeated', ({ word }) => `${quoted(word)} ist ein zweites Mal angegeben.`],
  wordRepeated: [
    'word-repeated',
    ({ text: twice, word }) => `${quoted(twice)} steht in diesem ${quoted(word)} ein zweites Mal.`,
  ],
  blockLabelUnexpected: [
    'layers-unexpected',
    ({ block }) => `${quoted(block)} nennt keine Schichten; das tut nur slot.`,
  ],
  groupNotClosed: ['group-not-closed', () => "Diese '(' hat in ihrer Anweisung keine ')'."],
  groupWithoutCount: [
    'group-without-count',
    () => `Nach einer Gruppe stehen '*' und eine ganze Zahl von 1 bis ${mostSlots}, wie in (+6b +6a)*3.`,
  ],
  groupEmpty: ['group-empty', () => 'Diese Gruppe enthält nichts zum Wiederholen.'],
  groupTooDeep: [
    'groups-too-deep',
    ({ most }) => `Gruppen stehen höchstens ${most} tief ineinander; diese bleibt weg.`,
  ],
  groupStray: ['parenthesis-unexpected', () => "Diese ')' schließt keine Gruppe."],
  sequenceTooLong: [
    'expansion-too-long',
    ({ items, most }) =>
      `Wiederholte Gruppen ergeben ${Number.isFinite(items) && items < 1e15 ? items : 'mehr als 10^15'} Glieder; erlaubt sind höchstens ${most}.`,
  ],
  titleMissing: ['title-missing', () => 'Die Wicklung hat keinen Namen; beginnen Sie mit winding "..."'],
  blockMissing: [
    'block-missing',
    ({ block, example }) => `Die Datei braucht einen Block ${quoted(block)}; zum Beispiel: ${example}`,
  ],
  statementMissing: [
    'statement-missing',
    ({ block, word, example }) =>
      `Der Block ${quoted(block)} braucht ${quoted(word)}; zum Beispiel: ${example}`,
  ],
  statementsExclude: [
    'statements-exclude-each-other',
    ({ word, other, reason: why }) =>
      `${quoted(word)} kann nicht neben ${quoted(other)} stehen: ${reason(why)}`,
  ],
  textTooLong: [
    'sheet-text-long',
    ({ word, length, most }) =>
      `${quoted(word)} hat ${length} Zeichen; sein Feld im Schriftfeld (ISO 7200) fasst ${most}.`,
  ],
  reasonMissing: [
    'reason-missing',
    ({ word }) =>
      `${quoted(word)} braucht in seinen Anführungszeichen eine Begründung: warum die Warnung hier nicht schadet.`,
  ],
  stringTooLong: [
    'text-too-long',
    ({ word, length, most }) =>
      `Der Text von ${quoted(word)} hat ${length} Zeichen; höchstens ${most} können gelesen werden.`,
  ],
  statementsTooMany: [
    'statements-too-many',
    ({ block, most }) =>
      `Mehr als ${most} Anweisungen in ${quoted(block)}: Von hier an wird der Block nicht gelesen.`,
  ],
  blocksTooMany: [
    'blocks-too-many',
    ({ most }) => `Mehr als ${most} Blöcke: Von hier an wird der Text nicht gelesen.`,
  ],
  phasesApartMissing: [
    'phases-need-angle',
    () =>
      "6 Stränge sind zwei dreisträngige Sätze: Sagen Sie, wie weit versetzt, wie in 'phases 6 apart 30 edeg'.",
  ],
  phasesApartUnexpected: [
    'phases-apart-unexpected',
    ({ count }) =>
      `Nur 6 Stränge (zwei Sätze) können um einen Winkel versetzt sein ('apart'), nicht ${count}.`,
  ],
  layerOutside: [
    'layer-outside',
    ({ layer, layers }) =>
      `Es gibt keine Schicht ${quoted(layer)}: Die Anordnung hat ${layers} (${layers === 1 ? 'a' : `a bis ${layerLetter(layers - 1)}`}).`,
  ],
  layerRepeated: [
    'layer-repeated',
    ({ layer, what }) => `Schicht ${quoted(layer)} hat schon ${thing(what)}.`,
  ],
};

const looksLike = {
  blank: ', wo ein einfaches Leerzeichen hingehört',
  'line-end': ', wo ein Zeilenende hingehört',
  nothing: ' und ist nicht zu sehen',
  mixed: ' und ist nicht zu sehen, oder von einfachen Leerzeichen nicht zu unterscheiden',
} as const;

/** Characters that cannot be seen for what they are; their names are those of the character database. */
export const oddCharacters: Wordings<typeof Odd> = {
  oddCharacters: [
    'character-odd',
    ({ odd, kind, more }) => {
      const names = odd.slice(0, 3).map(({ point, name }) => `${point} (${name})`);
      const all = odd.length > 3 ? `${names.join(', ')} und ${odd.length - 3} weitere` : listed(names);
      const rest =
        more === 0
          ? ''
          : `; dahinter hat der Text an ${counted(more, 'weiteren Stelle', 'weiteren Stellen')} ungewöhnliche Zeichen`;
      return `Hier steht ${all}${looksLike[kind]}${rest}.`;
    },
  ],
};

const steps: Readonly<Record<Vary.StepProblem, (data: { word: string; most: number }) => string>> = {
  none: ({ word }) =>
    `Die Werte von ${quoted(word)} brauchen einen Schritt: 'by', und wie weit ein Wert vom nächsten liegt.`,
  zero: () => "Der Schritt hinter 'by' ist null.",
  away: () => "Der Schritt hinter 'by' führt vom letzten Wert weg.",
  units: () => 'Erster Wert, letzter Wert und Schritt stehen in einer Einheit.',
  'too-many': ({ most }) => `Eine Zeile hat höchstens ${most} Werte.`,
  'not-whole': () => "Die Zahlen neben 'nominal' sind ganze Zahlen.",
};

/** What the block vary reports. */
export const vary: Wordings<typeof Vary> = {
  varyStepWrong: ['vary-step-wrong', (data) => steps[data.problem](data)],
  varyEndMissed: [
    'vary-end-missed',
    ({ last, end }) => `Die Schritte treffen ${end} nicht; der letzte versuchte Wert ist ${last}.`,
  ],
  varyCountsDiffer: [
    'vary-counts-differ',
    ({ word, count, other }) =>
      `${quoted(word)} hat ${counted(count, 'Wert', 'Werte')}, die Zeile, mit der es läuft, ${other}.`,
  ],
  varyOppositeImpossible: [
    'vary-opposite-impossible',
    ({ word, first }) => `${quoted(word)} kann die negativen Werte von ${quoted(first)} nicht annehmen.`,
  ],
  holdTwofold: [
    'hold-twofold',
    ({ word, other }) =>
      `${quoted(word)} und ${quoted(other)} können nicht beide gleich bleiben; wählen Sie eins.`,
  ],
  varyWordRepeated: ['vary-word-repeated', ({ word }) => `${quoted(word)} hat schon eine Zeile.`],
  varyWritten: [
    'vary-written',
    ({ word, what }) =>
      what === 'rows'
        ? `${quoted(word)} kann nicht veränderlich sein, solange die Anordnung Zeile für Zeile dasteht; schreiben Sie stattdessen 'layers' und 'span'.`
        : `${quoted(word)} kann nicht veränderlich sein, solange Zweige dastehen; schreiben Sie stattdessen 'route paths'.`,
  ],
  varyLayersDiffer: [
    'vary-layers-differ',
    ({ word, written }) =>
      `Die Datei sagt ${quoted(written)}, für andere Schichten als diese Zeile von ${quoted(word)}; nennen Sie in beiden dieselben.`,
  ],
  varyOrder: [
    'vary-order-with-poles',
    ({ order }) =>
      `Ordnung ${order} ist bei jeder Polzahl eine andere Welle, und die Pole sind veränderlich; nehmen Sie 'harmonic'.`,
  ],
  keepWithoutLimits: [
    'keep-without-limits',
    () => 'Die Datei hat keine Grenzen, die behalten werden können.',
  ],
};
