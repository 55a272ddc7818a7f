import { connectWinding } from '../../../core/facts/connect.ts';
import {
  type ConnectionState,
  type Connector,
  connectionOf,
  joinedFacts,
  type PathRequest,
  routeOptions,
} from '../../../core/facts/connection.ts';
import { type Facts, gatherFacts } from '../../../core/facts/facts.ts';
import { createWhole, workStore } from '../../../core/facts/workFirst.ts';
import type { Steps } from '../../../core/figures/steps.ts';
import type { Measurer } from '../../../core/figures/work.ts';
import type { CheckedText } from '../../../core/findings/checkedText.ts';
import { evaluateLimits, type LimitResult } from '../../../core/findings/limits.ts';
import type { Specification } from '../../../core/language/specification/specification.ts';
import { specify } from '../../../core/language/specification/specify.ts';
import { parse } from '../../../core/language/text/parser.ts';
import { routeSteps } from '../../../core/routing/route.ts';
import { deriveWinding } from '../../../core/winding/derive.ts';
import { regularBends } from '../../../core/winding/joints/bends.ts';
import type { Winding } from '../../../core/winding/model.ts';
import { inSlices } from '../inSlices.ts';

/** What a text that was changed for a try gives; facts are null where it describes no winding. */
export interface Trial {
  readonly facts: Facts | null;
  readonly limits: readonly LimitResult[];
}

/** A search that a try still needs. */
interface Asked {
  readonly winding: Winding;
  readonly request: PathRequest;
}

/** Clearances and end windings take too long for a quick try: figures that need them are missing or estimates in it. */
const unmeasured = () => null;

/** A text that is tried; its facts, also as if it asked for something else, where it describes a winding. */
interface Tried {
  readonly specification: Specification;
  readonly gather: ((measurer: Measurer, asking?: Specification) => Facts) | null;
}

/** Reads a text whose paths are found by `connector`. */
function triedText(text: string, connector: Connector): Tried {
  const specification = specify(parse(text));
  const { winding, paths } = deriveWinding(specification);
  if (winding === null) return { specification, gather: null };
  const connection = connectWinding(specification, winding, paths, connector);
  return {
    specification,
    gather: (measurer, asking = specification) => gatherFacts(asking, winding, connection, measurer),
  };
}

/** What a text gives, its paths found by `connector`. */
export function trial(text: string, connector: Connector): Trial {
  const { specification, gather } = triedText(text, connector);
  const facts = gather ? gather(unmeasured) : null;
  return { facts, limits: evaluateLimits(specification, facts) };
}

/**
 * On what the measured figures of some limits depend in a text, each limit by itself: clearances and end windings are
 * not computed for a try, but what they would be computed from tells whether they stay the same.
 */
export function measuredFrom(
  text: string,
  connector: Connector,
  limits: readonly number[],
): readonly string[] {
  const { specification, gather } = triedText(text, connector);
  return limits.map((index) => {
    const limit = specification.limits[index];
    if (!gather || !limit) return '';
    const asked = new Set<string>();
    const noting: Measurer = ({ kind, key }) => {
      // Figures that are kept together depend on more than what is measured.
      if (kind !== 'machine' && kind !== 'slot-table') asked.add(`${kind} ${key()}`);
      return null;
    };
    const alone = { ...specification, limits: [limit] };
    evaluateLimits(alone, gather(noting, alone));
    return [...asked].sort().join('\n');
  });
}

/** Whether a text describes a winding, which is told without computing anything of it. */
export function describesWinding(text: string): boolean {
  const document = parse(text);
  return deriveWinding(specify(document)).winding !== null;
}

/**
 * Keeps to the paths that a study found, for texts whose bars lie as before and which ask for the same; others
 * count as not found, and `asked` is told what would have to be searched for.
 */
export function keepingPaths(
  study: CheckedText,
  asked: (search: Asked) => void = () => undefined,
): Connector {
  const own = study.facts && joinedFacts(study.facts);
  const before = study.winding;
  const request = before && requestOf(study);
  return (winding, wanted): ConnectionState => {
    const explanation = own?.explanation;
    if (own && explanation && before && request && alike(before, winding) && alikeRequests(request, wanted))
      return connectionOf(winding, wanted, {
        ok: true,
        paths: own.paths,
        bends: regularBends(winding),
        explanation,
      });
    asked({ winding, request: wanted });
    return { kind: 'pending' };
  };
}

function requestOf({ specification, winding }: CheckedText): PathRequest | null {
  let request: PathRequest | null = null;
  if (winding)
    connectWinding(specification, winding, null, (_, wanted) => {
      request = wanted;
      return { kind: 'pending' };
    });
  return request;
}

function alike(a: Winding, b: Winding): boolean {
  return (
    a.slots === b.slots &&
    a.poles === b.poles &&
    a.layers === b.layers &&
    a.table.cells.every((cell, index) => cell === b.table.cells[index])
  );
}

/** Whether the same is asked for; how near joint tips and pieces may come is a size, which a try may change. */
function alikeRequests(a: PathRequest, b: PathRequest): boolean {
  const told = (request: PathRequest) =>
    JSON.stringify({ ...request, leastTipGap: null, contacts: null, judge: null });
  return told(a) === told(b);
}

/** Turns of the search that a try waits for: what takes longer is left without paths. */
const mostTurns = 400;

/** The end windings that were measured last for tries: many tries leave them alike. */
const endWindings = workStore(8);

/**
 * A try whose end windings are measured where a limit asks for their leakage, or `asks` does: that of the machine under
 * load holds it.
 */
function* measuredTrial(text: string, connector: Connector, asks: (facts: Facts) => void): Steps<Trial> {
  const { specification, gather } = triedText(text, connector);
  if (!gather) return { facts: null, limits: evaluateLimits(specification, null) };
  const whole = createWhole(
    (measure) => gather((work) => (work.kind === 'inductance' ? measure(work) : null)),
    endWindings,
  );
  return yield* whole.read((facts) => {
    asks(facts);
    return { facts, limits: evaluateLimits(specification, facts) };
  });
}

/**
 * A try with all that it needs but clearances, found in steps so that the editor goes on between them: `pause` comes
 * between, and ends it where it throws. `asks` asks the facts for what is to be told of them beside the limits.
 */
export async function fullTrial(
  study: CheckedText,
  text: string,
  pause: () => Promise<void>,
  asks: (facts: Facts) => void = () => undefined,
): Promise<Trial> {
  const searches: Asked[] = [];
  const connector = keepingPaths(study, (search) => searches.push(search));
  const first = await inSlices(measuredTrial(text, connector, asks), pause);
  const [search] = searches;
  if (!search) return first;
  const steps = routeSteps(search.winding, routeOptions(search.request));
  for (let turn = 0; turn < mostTurns; turn++) {
    const step = steps.next();
    if (step.done) {
      const found = connectionOf(search.winding, search.request, step.value);
      return inSlices(
        measuredTrial(text, () => found, asks),
        pause,
      );
    }
    await pause();
  }
  return first;
}
