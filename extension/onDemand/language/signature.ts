import {
  MarkdownString,
  ParameterInformation,
  type Position,
  SignatureHelp,
  SignatureInformation,
  type TextDocument,
} from 'vscode';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { walkStep } from '../../../core/language/specification/values.ts';
import { cursorPlace } from '../../../core/language/text/cursorPlace.ts';
import type { WalkStep } from '../../../core/language/text/document.ts';
import type { Token } from '../../../core/language/text/lexer.ts';
import {
  expandSequence,
  mostItems,
  readSequence,
  sequenceLength,
} from '../../../core/language/text/sequence.ts';
import { modulo } from '../../../core/winding/integers.ts';
import {
  type Bar,
  barName,
  cellAt,
  foldedSlot,
  placeName,
  printedSigns,
} from '../../../core/winding/model.ts';
import { l10n } from '../../wording.ts';

const parts = ['phase', 'number', 'from terminal', 'walk', 'to terminal'] as const;
const label = `path ${parts.join(' ')}`;

/** What comes next in the path that is being written at a position; null elsewhere. */
export function pathSignature(
  study: CheckedText,
  document: TextDocument,
  position: Position,
): SignatureHelp | null {
  const place = pathBefore(study, document.offsetAt(position));
  if (place === null) return null;
  const { tokens, part } = place;
  const help = new SignatureHelp();
  const signature = new SignatureInformation(label);
  signature.documentation = new MarkdownString(
    l10n.t(
      'One path of bars, from its line terminal: joints lie by turns on the far and on the connection side.',
    ),
  );
  signature.parameters = parts.map((name) => new ParameterInformation(name, partWords(name)));
  signature.parameters[3] = new ParameterInformation(parts[3], walkWords(study, tokens));
  help.signatures = [signature];
  help.activeSignature = 0;
  help.activeParameter = part;
  return help;
}

/** The tokens of the path's statement before an offset, and the part of it that follows; null outside paths. */
function pathBefore(
  { document }: CheckedText,
  offset: number,
): { readonly tokens: readonly Token[]; readonly part: number } | null {
  const { text, tokens } = document;
  // Within a step cursorPlace has no word: the place behind the last token before tells the statement.
  const earlier = tokens.filter(({ kind, end }) => kind !== 'comment' && kind !== 'end' && end < offset);
  const at = earlier.map(({ kind, text: word }) => kind === 'word' && word === 'path').lastIndexOf(true);
  if (at < 0) return null;
  const own = earlier.slice(at);
  const place = cursorPlace(text, tokens, own[0]!.end + 1);
  if (place?.block !== 'connect' || own.some(({ text: word }) => /^[{}]$|^repeat$|^route$/.test(word)))
    return null;
  const words = own.map(({ text: word }) => word);
  if (/[\r\n]\s*[\r\n]/.test(text.slice(own.at(-1)!.end, offset))) return null;
  const [from, to] = [words.indexOf('from'), words.indexOf('to')];
  if (to >= 0) return words.length > to + 1 ? null : { tokens: own, part: 4 };
  if (from >= 0) return { tokens: own, part: words.length > from + 1 ? 3 : 2 };
  return { tokens: own, part: Math.min(2, own.length - 1) };
}

function partWords(name: (typeof parts)[number]): string {
  switch (name) {
    case 'phase':
      return l10n.t('The phase, by its name.');
    case 'number':
      return l10n.t('The number of the path among those of its phase, from 1.');
    case 'from terminal':
      return l10n.t("The line terminal, 'from U1'; 'far' behind it puts the lead on the far side.");
    case 'walk':
      return l10n.t('The first bar by slot and layer, 1a; then hops, +6b: 6 slots on, layer b.');
    case 'to terminal':
      return l10n.t("Where it ends: 'to N' in star, 'to U2' in delta and open windings.");
  }
}

/** Where the path stands, and which bars its phase has that lie about a pole pitch from there. */
function walkWords({ winding }: CheckedText, tokens: readonly Token[]): string {
  const plain = partWords('walk');
  if (!winding) return plain;
  const from = tokens.findIndex(({ text }) => text === 'from');
  const start = from < 0 ? tokens.length : from + (tokens[from + 2]?.text === 'far' ? 3 : 2);
  const { items } = readSequence(tokens, start, tokens.length, walkStep, []);
  if (items.length === 0 || sequenceLength(items) > mostItems) return plain;
  let bar: Bar | null = null;
  let count = 0;
  for (const step of expandSequence<WalkStep>(items)) {
    if (step.kind === 'piece') continue;
    const slot: number = step.kind === 'position' ? step.slot : (bar?.slot ?? 1) + step.slots;
    bar = { slot: foldedSlot(slot, winding.slots), layer: step.layer };
    count++;
  }
  if (bar === null) return plain;
  const startsFar = tokens[from + 2]?.text === 'far';
  const side = (count % 2 === 1) === startsFar ? l10n.t('connection side') : l10n.t('far side');
  const held = placeName(cellAt(winding.table, bar.slot, bar.layer), winding.phases, printedSigns);
  const phase = winding.phases.names.indexOf(tokens[1]?.text ?? '');
  const next = nextBars(winding, bar, phase).join(' ');
  return [
    l10n.t('Now at {0} ({1}), bar {2}; the next joint lies on the {3}.', barName(bar), held, count, side),
    ...(next === '' ? [] : [l10n.t('Bars of the phase one coil away: {0}', next)]),
    plain,
  ].join('\n\n');
}

/** Hops to bars of the phase that the other sense fills, near a pole pitch away, nearest to it first. */
function nextBars(winding: NonNullable<CheckedText['winding']>, bar: Bar, phase: number): readonly string[] {
  const { slots, poles, layers, table } = winding;
  const sense = Math.sign(cellAt(table, bar.slot, bar.layer));
  const pitch = slots / poles;
  const hops: { readonly words: string; readonly off: number }[] = [];
  for (let reach = Math.max(1, Math.floor(pitch) - 2); reach <= Math.ceil(pitch) + 2; reach++)
    for (const by of [reach, -reach])
      for (const layer of [bar.layer - 1, bar.layer + 1]) {
        if (layer < 0 || layer >= layers || reach >= slots) continue;
        const cell = cellAt(table, modulo(bar.slot + by - 1, slots) + 1, layer);
        if (Math.abs(cell) - 1 !== phase || Math.sign(cell) === sense) continue;
        hops.push({ words: `${by > 0 ? '+' : ''}${by}${layerLetter(layer)}`, off: Math.abs(reach - pitch) });
      }
  return hops
    .sort((a, b) => a.off - b.off)
    .slice(0, 6)
    .map(({ words }) => words);
}
