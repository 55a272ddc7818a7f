import { commands, ProgressLocation, type QuickPickItem, window } from 'vscode';
import type { Steps } from '../../../core/figures/steps.ts';
import { figureText } from '../../../core/language/figureText.ts';
import { layerLetters } from '../../../core/language/layerLetters.ts';
import { significant } from '../../../core/language/numbers.ts';
import { l10n } from '../../wording.ts';
import { createPause, inSlices } from '../inSlices.ts';
import { specialWords } from '../language/lenses.ts';
import { newText } from '../newText.ts';
import { type BarsChoice, barsChoices } from './barsChoices.ts';
import { type LayersChoice, layersChoices } from './layersChoices.ts';
import { type MachineWish, readPoles, readSlots } from './machineWish.ts';
import { type Proposal, proposals } from './proposals.ts';
import { windingText } from './windingText.ts';

/**
 * A new winding from the machine it is for: its gap, poles or speed and frequency, phases, and slots or diameter where
 * they are given. Layouts that work are proposed with what each gives, numbers of layers and bars likewise; what is picked
 * becomes a text that explains itself, with its drawing beside it. Escape at any question ends it, and nothing is made.
 */
export async function newWinding(): Promise<void> {
  const wish = await askForMachine();
  if (wish === null) return;
  const found = await looking(l10n.t('Looking for layouts'), proposals(wish));
  if (found === null) return;
  if (found.length === 0) {
    window.showInformationMessage(noLayoutWords(wish));
    return;
  }
  const layout = await picked(
    l10n.t('New winding: layout'),
    l10n.t('Layouts that work, those of the purest field first'),
    found.map((proposal) => proposalItem(wish, proposal)),
  );
  if (layout === null) return;
  const choices = await looking(l10n.t('Looking for connections'), layersChoices(wish, layout));
  if (choices === null) return;
  const chosen = choices.length > 1 ? await askForLayers(wish, layout, choices) : (choices[0] ?? layout);
  if (chosen === null) return;
  const bars = await looking(l10n.t('Looking for connections'), barsChoices(wish, chosen));
  if (bars === null) return;
  const made = await picked(
    l10n.t('New winding: bars'),
    l10n.t('How are the bars made, and do they lean?'),
    bars.map(barsItem),
  );
  if (made === null) return;
  const document = await newText(windingText(wish, chosen, made), 'new-winding');
  await window.showTextDocument(document);
  await commands.executeCommand('slotwright.showLayoutPanel');
}

/** The result of work that the reader waits for; null where it was given up. */
function looking<Result>(title: string, steps: Steps<Result>): Thenable<Result | null> {
  return window.withProgress(
    { location: ProgressLocation.Notification, title, cancellable: true },
    (_, token) => inSlices(steps, createPause(token)).catch(() => null),
  );
}

function askForLayers(
  wish: MachineWish,
  layout: Proposal,
  choices: readonly LayersChoice[],
): Promise<LayersChoice | null> {
  return picked(
    l10n.t('New winding: bars in a slot'),
    l10n.t('More layers: more turns, and flatter bars of less loss; more bars to make and to join'),
    choices.map((choice) => layersItem(wish, layout, choice)),
  );
}

interface Item<Value> extends QuickPickItem {
  readonly value: Value;
}

async function askForMachine(): Promise<MachineWish | null> {
  const gap = await picked(l10n.t('New winding: gap'), l10n.t('Where does the rotor stand?'), [
    { value: 'inner' as const, label: l10n.t('Inside the stator') },
    { value: 'outer' as const, label: l10n.t('Outside the stator') },
    { value: 'both' as const, label: l10n.t('On both sides'), description: l10n.t('slots open to two gaps') },
  ]);
  if (gap === null) return null;
  const phases = await picked(l10n.t('New winding: phases'), l10n.t('Phases of the supply'), [
    { value: 3, label: '3' },
    { value: 6, label: '6', description: l10n.t('two sets of three, 30 electrical degrees apart') },
    ...[5, 7, 9].map((value) => ({ value, label: String(value) })),
  ]);
  if (phases === null) return null;
  const poles = await answered(
    l10n.t('New winding: poles'),
    l10n.t('Poles, or speed and frequency'),
    l10n.t('8, or 8 1500 rpm, or 1500 rpm 100 Hz'),
    readPoles,
  );
  if (poles === null) return null;
  const slots = await answered(
    l10n.t('New winding: slots'),
    l10n.t('Slots at hand, stator diameter at the gap, both or neither'),
    l10n.t('48, or 48 slots 162 mm, or 162 mm; empty where all is free'),
    readSlots,
  );
  return slots === null ? null : { gap, phases, ...poles, ...slots };
}

/** One of some choices; null for none. The list stays where something else takes the focus. */
async function picked<Value>(
  title: string,
  placeHolder: string,
  items: readonly Item<Value>[],
): Promise<Value | null> {
  const options = { title, placeHolder, matchOnDetail: true, ignoreFocusOut: true };
  return (await window.showQuickPick(items, options))?.value ?? null;
}

/** An answer that could be read; the box says what is wrong while it cannot. */
async function answered<Value extends object>(
  title: string,
  prompt: string,
  placeHolder: string,
  read: (answer: string) => Value | string,
): Promise<Value | null> {
  const validateInput = (text: string) => {
    const value = read(text);
    return typeof value === 'string' ? value : null;
  };
  const answer = await window.showInputBox({
    title,
    prompt,
    placeHolder,
    validateInput,
    ignoreFocusOut: true,
  });
  const value = answer === undefined ? null : read(answer);
  return typeof value === 'string' ? null : value;
}

function proposalItem({ diameter }: MachineWish, value: Proposal): Item<Proposal> {
  const { slots, span, slotsPerPolePerPhase, parallelPaths } = value;
  const place = [
    l10n.t('{0} slots a pole and phase', slotsPerPolePerPhase),
    ...(diameter === null ? [] : [l10n.t('slot pitch {0} mm', significant((Math.PI * diameter) / slots, 3))]),
  ];
  return {
    value,
    label: span === 1 ? l10n.t('{0} slots, tooth coils', slots) : l10n.t('{0} slots, span {1}', slots, span),
    description: place.join(' · '),
    detail: [...waveWords(value), l10n.t('up to {0} balanced parallel paths', parallelPaths)].join(' · '),
  };
}

/** What tells a number of layers from others: bars, paths and joints; waves where they are not those of the layout. */
function layersItem({ phases }: MachineWish, layout: Proposal, value: LayersChoice): Item<LayersChoice> {
  const { layers, slots, paths, parallelPaths, specialJoints, jumpers } = value;
  const bars = slots * layers;
  const sameWaves = Math.abs(value.windingFactor - layout.windingFactor) < 1e-9;
  const series =
    paths === 1
      ? l10n.t('{0} in series', bars / phases)
      : l10n.t('{0} in series in each of {1} paths', bars / phases / paths, paths);
  const joined = [
    ...specialWords({ special: specialJoints, jumpers }).slice(0, jumpers > 0 ? 2 : 1),
    l10n.t('up to {0} balanced parallel paths', parallelPaths),
  ];
  return {
    value,
    label: layers === 1 ? l10n.t('1 layer') : l10n.t('{0} layers', layers),
    description: `${l10n.t('{0} bars', bars)}, ${series}`,
    detail: [...(sameWaves ? [] : waveWords(value)), ...joined].join(' · '),
  };
}

/** What kind of bars, and the working wave that is left where they lean. */
function barsItem(value: BarsChoice): Item<BarsChoice> {
  const { form, lean, windingFactor } = value;
  if (form === 'hairpin')
    return {
      value,
      label: l10n.t('Hairpins'),
      detail: l10n.t('crowns on the far side, joints on the connection side alone'),
    };
  const joined = l10n.t('joined at both ends');
  if (lean === null) return { value, label: l10n.t('Straight bars'), detail: joined };
  const [ahead, back] = [layerLetters(lean.ahead), layerLetters(lean.back)];
  const leans =
    lean.slots === 1
      ? l10n.t('{0} lean by a slot pitch, {1} the other way', ahead, back)
      : l10n.t('{0} lean by half a slot pitch, {1} the other way', ahead, back);
  return {
    value,
    label: l10n.t('Straight bars, crossed'),
    description: l10n.t('hold a stator without a yoke stiff'),
    detail: [joined, leans, factorWords(windingFactor)].join(' · '),
  };
}

function factorWords(windingFactor: number): string {
  return l10n.t('winding factor {0}', figureText('factors[].winding', windingFactor));
}

function waveWords({ windingFactor, leakage }: Proposal): readonly string[] {
  const factor = factorWords(windingFactor);
  if (leakage === null) return [factor];
  return [factor, l10n.t('differential leakage {0}', figureText('mmf.differentialLeakage', leakage))];
}

function noLayoutWords({ slots, poles, phases }: MachineWish): string {
  return slots === null
    ? l10n.t(
        'No balanced layout was found for {0} poles and {1} phases. Try another number of either.',
        poles,
        phases,
      )
    : l10n.t(
        'No balanced layout of two layers was found for {0} slots, {1} poles and {2} phases. Leave the slots out to see which numbers of slots work.',
        slots,
        poles,
        phases,
      );
}
