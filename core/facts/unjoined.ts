import { phaseConnection } from '../analysis/machineInputs.ts';
import { layerLetter } from '../language/layerLetters.ts';
import { isOne, listed } from '../language/lists.ts';
import type { Specification } from '../language/specification/specification.ts';
import type { DivisorCondition, RouteRefusal } from '../routing/route.ts';
import type { Winding } from '../winding/model.ts';
import type { ConnectionState } from './connection.ts';

/** A connection without paths. */
export type Unjoined = Exclude<ConnectionState, { readonly kind: 'connected' }>;

/** What would supply the paths, as what a figure needs: a statement, or its trouble in a few words. */
export function pathsNeed(state: Unjoined): string {
  switch (state.kind) {
    case 'none':
      return needOf[state.why];
    case 'pending':
      return 'paths (still being found)';
    case 'refused':
      return `paths (${routeWords(state)} was refused)`;
  }
}

const needOf = {
  'not-said': 'connect route or written paths',
  'paths-wrong': 'written paths without errors',
  unread: 'a text without errors that hide paths',
  failed: 'paths (their check failed)',
} as const;

/** Needs without the paths, while they are being found: nobody has to supply those. */
export function withoutComing(needs: readonly string[], state: ConnectionState): readonly string[] {
  return state.kind === 'pending' ? needs.filter((need) => need !== pathsNeed(state)) : needs;
}

/** `pathsNeed` among other needs, with the reason of a refusal. */
export function withRefusal(
  needs: readonly string[],
  state: ConnectionState,
  winding: Winding,
): readonly string[] {
  if (state.kind !== 'refused') return needs;
  const short = pathsNeed(state);
  return needs.map((need) => (need === short ? `paths (${refusedWords(state, winding)})` : need));
}

/** What a text lacks so that its bars are joined: how the phases are joined, else the paths. */
export function joiningNeed(specification: Specification, state: Unjoined): string {
  const connection = phaseConnection(specification);
  const unsaid = state.kind === 'none' && state.why === 'not-said' && !connection.known;
  return unsaid ? listed(connection.needs) : pathsNeed(state);
}

/** Why no bars are joined, to end a sentence; null where the text just does not say how. */
export function unjoinedReason(state: Unjoined, winding: Winding): string | null {
  switch (state.kind) {
    case 'none':
      return reasonOf[state.why];
    case 'pending':
      return 'the paths are still being found';
    case 'refused':
      return refusedWords(state, winding);
  }
}

const reasonOf = {
  'not-said': null,
  'paths-wrong': 'the written paths have errors',
  unread: 'errors in the text may hide how the bars are joined',
  failed: 'the check of the paths failed',
} as const;

type Refused = Extract<ConnectionState, { readonly kind: 'refused' }>;

/** `route paths 5 was refused: 5 does not divide 8 pairs of bars of equal voltage`. */
function refusedWords(state: Refused, { phases }: Winding): string {
  return `${routeWords(state)} was refused: ${refusalWords(state.reason, phases.names)}`;
}

function routeWords({ asked, byDefault }: Refused): string {
  return `route paths ${asked}${byDefault ? ', the default,' : ''}`;
}

/** Why the router refused, in a few words. */
export function refusalWords(reason: RouteRefusal, phases: readonly string[]): string {
  switch (reason.kind) {
    case 'no-constant-span':
      return `in ${isOne(reason.layers.length) ? 'layer' : 'layers'} ${reason.layers.map(layerLetter).join(' and ')} no constant span leads each + bar to a - bar of its phase`;
    case 'phase-without-bars':
      return `phase ${phases[reason.phase]} has no bars`;
    case 'paths-do-not-divide': {
      const failing = reason.failing.map(({ what, count }) => groupWords[what](count)).join(' and ');
      const why = reason.strict ? ' (slots hold two phases, so each path needs every place alike)' : '';
      if (reason.failing.length === 0)
        return `no way was found to deal the bars of equal voltage out to ${reason.paths} equal paths${why}`;
      return `${reason.paths} does not divide ${failing}${why}`;
    }
    case 'bars-do-not-divide':
      return `${reason.paths} paths do not divide the bars of equal voltage and of each layer, whatever the crowns`;
    case 'none-met':
      return `none was met with special spans ${specialsWords[reason.specials]}, though there may be some`;
  }
}

/** Where special spans lie, after "special spans". */
const specialsWords = {
  joined: 'in the joined legs',
  crowns: 'in the crowns',
  either: 'in joined legs and crowns',
} as const;

const pairs = (count: number) => (isOne(count) ? '1 pair' : `${count} pairs`);
const bars = (count: number) => (isOne(count) ? '1 bar' : `${count} bars`);

const groupWords: Readonly<Record<DivisorCondition['what'], (count: number) => string>> = {
  'bars-of-equal-voltage': (count) => `${pairs(count)} of bars of equal voltage`,
  'bars-of-equal-voltage-in-a-layer': (count) => `${pairs(count)} of bars of equal voltage in a layer`,
  'bars-in-a-layer-pair': (count) => `${pairs(count)} of bars in a layer pair`,
  'single-bars-of-equal-voltage': (count) => `${bars(count)} of equal voltage`,
  'single-bars-of-equal-voltage-in-a-layer': (count) => `${bars(count)} of equal voltage in a layer`,
};
