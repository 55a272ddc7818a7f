import { CodeLens, type TextDocument } from 'vscode';
import { joinedFacts } from '../../../core/facts/connection.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { figureText } from '../../../core/language/figureText.ts';
import type { JointCounts } from '../../../core/winding/joints/joints.ts';
import { editorRange } from '../../edits.ts';
import type { LensKind } from '../../settings.ts';
import { l10n } from '../../wording.ts';

/** A line above a statement; its words are made when it comes into view. */
class WindingLens extends CodeLens {
  constructor(
    range: CodeLens['range'],
    readonly document: TextDocument,
    readonly about: { readonly kind: LensKind; readonly place: string },
  ) {
    super(range);
  }
}

/** The lines above statements of the wanted kinds, without their words. */
export function lensesOf(
  study: CheckedText,
  document: TextDocument,
  kinds: readonly LensKind[],
): WindingLens[] {
  const { specification, document: parsed } = study;
  const lens = (at: { readonly start: number; readonly end: number }, kind: LensKind, place: string) =>
    new WindingLens(editorRange(document, at), document, { kind, place });
  const title = parsed.title?.range;
  const { paths = [], route } = specification.connect ?? {};
  const { vary } = specification;
  return [
    ...(kinds.includes('figures') && title ? [lens(title, 'figures', '')] : []),
    ...(kinds.includes('paths')
      ? paths.map(({ statement, value }) =>
          lens(statement, 'paths', `path ${value.phase.value} ${value.number.value}`),
        )
      : []),
    ...(kinds.includes('variants') && vary ? [lens(vary.range, 'variants', '')] : []),
    ...(kinds.includes('connections') && route ? [lens(route.statement, 'connections', '')] : []),
  ];
}

/** Gives a line its words and what a click on it does. */
export function resolvedLens(study: CheckedText, lens: WindingLens): WindingLens {
  const { uri } = lens.document;
  const { kind, place } = lens.about;
  switch (kind) {
    case 'figures':
      lens.command = {
        title: figuresLine(study),
        tooltip: l10n.t('Show the layout panel'),
        command: 'slotwright.showLayoutPanel',
        arguments: [uri],
      };
      return lens;
    case 'paths':
      lens.command = {
        title: l10n.t('Show on the Drawing'),
        command: 'slotwright.showOnDrawing',
        arguments: [uri, place],
      };
      return lens;
    case 'variants':
      lens.command = {
        title: variantsLine(study),
        tooltip: l10n.t('Judge the variants, and list the best'),
        command: 'slotwright.exploreVariants',
        arguments: [uri],
      };
      return lens;
    case 'connections':
      lens.command = offersAnother(study)
        ? {
            title: l10n.t('Found before: take the best connection by now'),
            command: 'slotwright.takeConnection',
            arguments: [uri],
          }
        : {
            title: connectionLine(study),
            tooltip: l10n.t('Choose a connection ...'),
            command: 'slotwright.chooseConnection',
            arguments: [uri],
          };
      return lens;
  }
}

/** The winding in one line: what it is, what it makes of the field, how it stands to its limits. */
function figuresLine({ facts, limits, findings }: CheckedText): string {
  if (!facts) return l10n.t('No winding yet');
  const { winding } = facts;
  const factor = facts.factorRow(winding.polePairs).winding;
  const leakage = facts.differentialLeakage();
  const met = limits.filter((limit) => limit.met === true).length;
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  return [
    l10n.t('{0} slots, {1} poles', winding.slots, winding.poles),
    l10n.t('{0} a pole and phase', facts.symmetry().slotsPerPolePerPhase),
    l10n.t('winding factor {0}', figureText('factors[].winding', factor)),
    ...(leakage === null
      ? []
      : [l10n.t('differential leakage {0}', figureText('mmf.differentialLeakage', leakage))]),
    ...(limits.length === 0
      ? []
      : [
          met === limits.length
            ? l10n.t('all limits hold')
            : l10n.t('limits that hold: {0} of {1}', met, limits.length),
        ]),
    ...(errors === 0 ? [] : [errors === 1 ? l10n.t('1 error') : l10n.t('{0} errors', errors)]),
  ].join(' · ');
}

/** How many variants the block asks for. */
function variantsLine({ specification }: CheckedText): string {
  const rows = specification.vary?.rows ?? [];
  const count = rows.reduce((product, { value }) => product * value.columns[0]!.values().length, 1);
  return rows.length === 0
    ? l10n.t('Nothing varies yet')
    : count === 1
      ? l10n.t('1 candidate: Run')
      : l10n.t('{0} candidates: Run', count);
}

/** Whether a connection found before is shown, while another one is the best by now. */
function offersAnother({ facts }: CheckedText): boolean {
  return facts?.connection.kind === 'connected' && facts.connection.offered !== undefined;
}

/** What was found for `route`: what a phase needs beside regular joints. */
function connectionLine({ facts, pending }: CheckedText): string {
  if (pending) return l10n.t('Paths are being found');
  const joined = facts && joinedFacts(facts);
  if (!joined) return l10n.t('No paths');
  return l10n.t('Found: {0}', specialWords(joined.counts()).join(', '));
}

/** What of the joints of a phase is not regular. */
export function specialWords({
  special,
  jumpers,
}: Pick<JointCounts, 'special' | 'jumpers'>): readonly string[] {
  return [
    special === 1 ? l10n.t('1 special joint a phase') : l10n.t('{0} special joints a phase', special),
    jumpers === 1 ? l10n.t('1 connecting piece a phase') : l10n.t('{0} connecting pieces a phase', jumpers),
  ];
}
