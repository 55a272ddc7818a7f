import { type QuickPickItem, Range, type TextDocument, WorkspaceEdit, window, workspace } from 'vscode';
import type { Facts } from '../../../core/facts/facts.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { quantityValue } from '../../../core/findings/quantities.ts';
import { layerLetters } from '../../../core/language/layerLetters.ts';
import { significant } from '../../../core/language/numbers.ts';
import type { Specification } from '../../../core/language/specification/specification.ts';
import type { Angle, Given, PerLayers } from '../../../core/language/specification/statements.ts';
import { possibleParallelPaths } from '../../../core/routing/route.ts';
import { questionOf } from '../../../core/variants/question.ts';
import type { Studies } from '../../engine/studies.ts';
import { l10n } from '../../wording.ts';
import { reveal } from '../reveal.ts';
import { askedDocument } from './subject.ts';

interface RowItem extends QuickPickItem {
  readonly row: string;
}

/**
 * Asks what is to vary, what counts and what is to be kept, and writes the block into the text, with values round those
 * of the file.
 */
export async function varyWinding(studies: Studies, uri?: unknown): Promise<void> {
  const document = await askedDocument(uri);
  if (!document) return;
  const { specification } = questionOf(document.getText());
  if (specification.vary) {
    await reveal(document.uri, specification.vary.range);
    return;
  }
  const study = studies.of(document);
  const rows = rowsFor(specification, study.facts);
  if (rows.length === 0) {
    window.showInformationMessage(
      l10n.t(
        "Nothing of this text can vary: rows and paths that are written out hold for one layout only. Write 'layers' and 'span' in place of the rows, and 'route paths' in place of the paths.",
      ),
    );
    return;
  }
  const chosen = await window.showQuickPick(rows, {
    title: l10n.t('Vary this winding'),
    placeHolder: l10n.t('What is to vary? Its values are changed in the text.'),
    canPickMany: true,
    ignoreFocusOut: true,
  });
  if (!chosen) return;
  if (chosen.length === 0) {
    window.showInformationMessage(l10n.t('Nothing was written: mark at least one word that is to vary.'));
    return;
  }
  const ranked = await window.showQuickPick(
    ranksFor(specification, (rank) => mayBeTold(study, rank)),
    {
      title: l10n.t('Vary this winding'),
      placeHolder: l10n.t('What counts? Those that none beats in all of it are marked.'),
      canPickMany: true,
      ignoreFocusOut: true,
    },
  );
  if (!ranked) return;
  const target = await window.showInputBox({
    title: l10n.t('Vary this winding'),
    prompt: l10n.t('What must be met beside the limits of the text? Empty for nothing more.'),
    placeHolder: 'winding-factor harmonic 1 >= 0.92',
    validateInput: (text) => keepTrouble(text),
    ignoreFocusOut: true,
  });
  if (target === undefined || keepTrouble(target) !== null) return;
  await writeBlock(
    document,
    blockText(
      chosen.map(({ row }) => row),
      specification,
      { rank: ranked.map(({ row }) => row), keep: target.trim() },
    ),
  );
}

/** What is wrong with a limit that is to be kept; null for a good one, and for none. */
function keepTrouble(text: string): string | null {
  const limit = text.trim();
  if (limit === '') return null;
  const { errors, keeps } = questionOf(`vary {\nkeep ${limit}\n}\n`);
  const [error] = errors;
  if (error) return error.message;
  return keeps.length === 1 && !/[{}#\r\n]/.test(limit) ? null : l10n.t('One limit, as in a block require');
}

/** Whether the text has what a rank of a whole study takes; also while that is being computed. */
function mayBeTold({ facts, pending, measuring }: CheckedText, rank: string): boolean {
  const [ranking] = questionOf(`vary {\nrank ${rank}\n}\n`).rank;
  if (pending || measuring || facts === null || ranking === undefined) return true;
  return quantityValue(ranking.measure, facts).known;
}

/** What may count, as far as the text has what it takes by `told`; what usually does is picked. */
function ranksFor({ connect, bar }: Specification, told: (rank: string) => boolean): readonly RowItem[] {
  const whole = connect !== undefined && bar !== undefined;
  const ofWhole = (label: string, text: string) => (whole && told(text) ? [rowItem(label, text)] : []);
  const [first = rowItem(l10n.t('Winding factor'), 'most winding-factor harmonic 1')] = ofWhole(
    l10n.t('Winding loss'),
    'least copper-loss',
  );
  return [
    { ...first, picked: true },
    { ...rowItem(l10n.t('Differential leakage'), 'least differential-leakage'), picked: true },
    ...ofWhole(l10n.t('Mass of the bars'), 'least copper-mass'),
    ...ofWhole(l10n.t('Torque'), 'most torque'),
    rowItem(l10n.t('Parallel paths that are possible'), 'most largest-paths'),
    rowItem(l10n.t('Cogging periods'), 'most cogging-periods'),
  ];
}

/** The rows that make sense for a text, with values round its own. */
function rowsFor(specification: Specification, facts: Facts | null): readonly RowItem[] {
  const { layout, connect } = specification;
  const written = (layout?.rows.length ?? 0) > 0 || (connect?.paths.length ?? 0) > 0;
  return [...(written ? [] : layoutRows(specification, facts)), ...sizeRows(specification)];
}

const rowItem = (label: string, row: string): RowItem => ({ label, description: row, row });

/** Of a layout and paths that are not written out. */
function layoutRows(specification: Specification, facts: Facts | null): readonly RowItem[] {
  const { machine, layout, connect } = specification;
  const out: RowItem[] = [];
  const slots = machine?.slots?.value;
  if (slots !== undefined) {
    const step = 2 * (machine?.phases?.value.count ?? 3);
    const least = Math.max(step, slots - 2 * step);
    out.push(rowItem(l10n.t('Slots'), `machine slots ${least} to ${least + 4 * step} by ${step}`));
  }
  const poles = machine?.poles?.value;
  if (poles !== undefined) {
    const least = Math.max(2, poles - 2);
    out.push(rowItem(l10n.t('Poles'), `machine poles ${least} to ${least + 4} by 2`));
  }
  if (layout?.layers && layout.layers.value > 1 && !namesLayers(specification))
    out.push(rowItem(l10n.t('Layers'), 'layout layers 2 4 6'));
  out.push(rowItem(l10n.t('Span'), 'layout span nominal -2 to nominal'));
  if (connect?.route) {
    const possible = facts ? possibleParallelPaths(facts.winding).slice(0, 4) : [];
    const paths = possible.length > 1 ? possible : [1, 2, 4];
    out.push(rowItem(l10n.t('Parallel paths'), `connect route paths ${paths.join(' ')}`));
  }
  return out;
}

/** Whether sizes or leans are those of named layers: further ones would lack what these have. */
function namesLayers({ layout, bar, slots }: Specification): boolean {
  const sizes = [...(bar?.height ?? []), ...(bar?.width ?? []), ...(layout?.skew ?? [])];
  return slots.some(({ layers }) => layers.length > 0) || sizes.some(({ value }) => value.layers !== null);
}

/** Of leans and sizes. */
function sizeRows({ machine, layout, bar }: Specification): readonly RowItem[] {
  const out: RowItem[] = [];
  const leans = leanRow(layout?.skew ?? []);
  if (leans) out.push(rowItem(l10n.t('Lean of the bars'), leans));
  for (const { value: height } of bar?.height ?? []) {
    const mm = (factor: number) => `${significant(height.value * factor * 1000, 3)} mm`;
    const layers = height.layers === null ? '' : ` ${layersText(height.layers)}`;
    const heights = `bar height${layers} ${mm(0.8)} ${mm(0.9)} ${mm(1)}`;
    out.push(rowItem(`${l10n.t('Bar height')}${layers}`, heights));
  }
  const stack = machine?.stack?.value;
  if (stack !== undefined) {
    const mm = (factor: number) => `${significant(stack * factor * 1000, 3)} mm`;
    out.push(rowItem(l10n.t('Stack'), `machine stack ${mm(0.9)} ${mm(1)} ${mm(1.1)}`));
  }
  return out;
}

/** Half, all and one and a half of the first lean that is written; others that are as large step with it. */
function leanRow(written: readonly Given<PerLayers<Angle>>[]): string | null {
  const leans = written.map(({ value }) => value);
  const first = leans.find(({ value }) => value.amount !== 0);
  if (!first) return null;
  const { amount, unit } = first.value;
  const values = [0.5, 1, 1.5].map((factor) => `${significant(factor * amount, 6)} ${unit}`).join(' ');
  const steps = leans.flatMap((lean) => {
    const { value } = lean;
    if (lean === first || value.unit !== unit || Math.abs(value.amount) !== Math.abs(amount)) return [];
    const target = `layout skew ${layersText(lean.layers)}`;
    return value.amount === amount ? ` with ${target} ${values}` : ` with opposite ${target}`;
  });
  return `layout skew ${layersText(first.layers)} ${values}${steps.join('')}`;
}

function layersText(layers: readonly number[] | null): string {
  return layers === null ? 'all' : layerLetters(layers);
}

/** The block with its rows, what is kept and the order. */
function blockText(
  rows: readonly string[],
  specification: Specification,
  asked: { readonly rank: readonly string[]; readonly keep: string },
): string {
  const keeps = [
    ...(specification.limits.length > 0 ? ['keep limits'] : []),
    ...(asked.keep === '' ? [] : [`keep ${asked.keep}`]),
  ];
  const order = asked.rank.length > 0 ? [`rank ${asked.rank.join(' ')}`] : [];
  return `vary {\n${[...rows, ...keeps, ...order].map((line) => `  ${line}\n`).join('')}}\n`;
}

async function writeBlock(document: TextDocument, block: string): Promise<void> {
  const text = document.getText();
  const lead = text === '' || text.endsWith('\n\n') ? '' : text.endsWith('\n') ? '\n' : '\n\n';
  const end = document.positionAt(text.length);
  const edit = new WorkspaceEdit();
  edit.replace(document.uri, new Range(end, end), lead + block);
  await workspace.applyEdit(edit);
  const start = text.length + lead.length;
  await reveal(document.uri, { start, end: start + 'vary'.length });
}
