import { commands, type QuickPickItem, Uri, window, workspace } from 'vscode';
import { l10n } from '../wording.ts';
import { newText } from './newText.ts';

/** An example that comes with the extension. */
export interface Example {
  /** Name of its file among the examples. */
  readonly file: string;
  readonly title: string;
  readonly teaches: string;
}

/** The examples in the order in which they teach, as examples/README.md has it. */
function examples(): readonly Example[] {
  return [
    {
      file: 'harbor-ferry-pod-drive.winding',
      title: 'Harbor ferry pod drive, stator B',
      teaches: l10n.t('the plain case: 2 slots a pole and phase, four layers, sizes, limits, sheet'),
    },
    {
      file: 'bow-thruster.winding',
      title: 'Bow thruster, chorded',
      teaches: l10n.t('chording and stagger against the fifth and seventh harmonic'),
    },
    {
      file: 'tidal-pump.winding',
      title: 'Tidal pump, tooth coils',
      teaches: l10n.t('tooth coils: fractional slots with coils round single teeth'),
    },
    {
      file: 'lock-gate-winch.winding',
      title: 'Lock-gate winch, slow and quiet',
      teaches: l10n.t('fractional slots with a longer coil span'),
    },
    {
      file: 'dredge-pump.winding',
      title: 'Dredge pump, two three-phase sets',
      teaches: l10n.t('two three-phase sets, each with its own converter'),
    },
    {
      file: 'sluice-fan.winding',
      title: 'Sluice fan, three layers row by row',
      teaches: l10n.t('rows and paths written by hand'),
    },
    {
      file: 'cable-ferry-drum.winding',
      title: 'Cable-ferry drum drive, crossed bars',
      teaches: l10n.t('crossed bars between two rotors, without a yoke'),
    },
    {
      file: 'slipway-carriage.winding',
      title: 'Slipway carriage hub drive',
      teaches: l10n.t('a duty: what each point of a working day takes, and how hot it gets'),
    },
    {
      file: 'ramp-hoist.winding',
      title: 'Ramp hoist drive, 24 V battery',
      teaches: l10n.t('overload between rests: a core that the bars heat'),
    },
    {
      file: 'fish-pass-pump-drive.winding',
      title: 'Fish pass pump drive',
      teaches: l10n.t('a choice: which slots, poles and span, from the question to the winding'),
    },
    {
      file: 'broken-ballast-pump.winding',
      title: 'Ballast pump, full of mistakes',
      teaches: l10n.t('broken on purpose: what findings say, and their quick fixes'),
    },
    {
      file: 'broken-unequal-paths.winding',
      title: 'Sluice lift, unequal paths',
      teaches: l10n.t('broken on purpose: paths that do not share the load'),
    },
  ];
}

/** Opens a copy of an example, with its drawing beside it: the one of this file name, else one that the reader picks. */
export async function openExample(extensionUri: Uri, name: unknown): Promise<void> {
  const all = examples();
  const named = all.find(({ file }) => file === name);
  const example = named ?? (await picked(all));
  if (example === undefined) return;
  const bytes = await workspace.fs.readFile(Uri.joinPath(extensionUri, 'examples', example.file));
  const content = new TextDecoder().decode(bytes);
  const document = await newText(content, example.file.replace(/\.winding$/, ''));
  await window.showTextDocument(document);
  await commands.executeCommand('slotwright.showLayoutPanel');
}

async function picked(all: readonly Example[]): Promise<Example | undefined> {
  const items = all.map((example): QuickPickItem & { readonly example: Example } => ({
    label: example.title,
    detail: example.teaches,
    example,
  }));
  const chosen = await window.showQuickPick(items, {
    title: l10n.t('Examples'),
    placeHolder: l10n.t('A copy opens, yours to change and to save'),
    matchOnDetail: true,
  });
  return chosen?.example;
}
