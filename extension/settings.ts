import { workspace } from 'vscode';

/** The kinds of hints within the text. */
export const hintKinds = ['slots-per-pole-and-phase', 'limits', 'landings'] as const;
export type HintKind = (typeof hintKinds)[number];

/** The kinds of lines above statements. */
export const lensKinds = ['figures', 'paths', 'connections', 'variants'] as const;
export type LensKind = (typeof lensKinds)[number];

/** How a finding is shown instead of by its own severity. */
export const shownSeverities = ['error', 'warning', 'information', 'hint', 'off'] as const;
export type ShownSeverity = (typeof shownSeverities)[number];

const section = 'slotwright';

/** The kinds of hints that the reader wants; what is no kind is left out. */
export function wantedHints(): readonly HintKind[] {
  return wanted('hints', hintKinds);
}

/** The kinds of lines above statements that the reader wants. */
export function wantedLenses(): readonly LensKind[] {
  return wanted('lenses', lensKinds);
}

/** How warnings and notes of a code are to be shown; what is no severity is left out. */
export function wantedSeverities(): ReadonlyMap<string, ShownSeverity> {
  const given = workspace.getConfiguration(section).get<unknown>('severity');
  if (typeof given !== 'object' || given === null) return new Map();
  return new Map(
    Object.entries(given).flatMap(([code, severity]) => {
      const known = shownSeverities.find((name) => name === severity);
      return known ? [[code, known] as const] : [];
    }),
  );
}

/** Whether files of the workspace that are not open have findings too. */
export function wantsWorkspaceFindings(): boolean {
  return workspace.getConfiguration(section).get<unknown>('workspaceFindings') !== false;
}

function wanted<Kind extends string>(name: string, kinds: readonly Kind[]): readonly Kind[] {
  const given = workspace.getConfiguration(section).get<unknown>(name);
  return Array.isArray(given) ? kinds.filter((kind) => given.includes(kind)) : kinds;
}
