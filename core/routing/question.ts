import type { Steps } from '../figures/steps.ts';
import type { Contacts } from '../space/clearance/contacts.ts';
import type { BarForm } from '../winding/joints/bars.ts';
import type { Bends } from '../winding/joints/bends.ts';
import type { TipSizes } from '../winding/joints/tips.ts';
import type { EndSide, Path } from '../winding/model.ts';
import type { SpecialsPlace } from './bars/jointTable.ts';
import type { PhaseConnection } from './phases.ts';
import type { ExceededLimit, RouteLimit, RouteMeasure, RouteWish } from './ranking.ts';
import type { RouteRefusal } from './refusal.ts';
import type { RouteBounds } from './wave/bounds.ts';
import type { RouteTrial } from './wave/search.ts';

/** How near bar ends, connecting pieces and leads of a winding come to each other, by its sizes. */
export interface EndContacts {
  /** All that it depends on, as plain values. */
  readonly sizes: object;
  /** Null where they cannot be made. It takes its time where there are many pieces. */
  readonly of: (paths: readonly Path[]) => Steps<Contacts | null>;
}

/** Limits on what only the whole winding tells, such as the mass of its copper. */
export interface LimitJudge {
  /** All that it depends on, as plain values. */
  readonly given: object;
  /** The limits that a connection exceeds, with what it has of them. */
  readonly exceeded: (paths: readonly Path[]) => Steps<readonly ExceededLimit[]>;
}

/** What the router is asked for; null is as if it were not there. */
export interface RouteOptions {
  /** Parallel paths of each phase. */
  readonly paths: number;
  /**
   * What counts most, in this order; behind it pieces, their levels, joint shapes, special joints, joint
   * tips, copper, terminal window.
   */
  readonly wishes?: readonly RouteWish[];
  /** A connection that meets them all goes before one that does not; default none. */
  readonly limits?: readonly RouteLimit[];
  /** Where special spans may lie; without it in the joined legs, or on either side where that is impossible. */
  readonly specials?: SpecialsPlace | null;
  /** Smallest distance between joint tips that can be built, in slots; default any above 0. */
  readonly leastTipGap?: number | null;
  /** What is known of the bar ends of each side; default nothing. */
  readonly tipSizes?: Readonly<Record<EndSide, TipSizes>>;
  /** How near pieces and leads come to each other; default unknown. */
  readonly contacts?: EndContacts | null;
  /** Limits by which the connection found gives way to a candidate that meets them all; default none. */
  readonly judge?: LimitJudge | null;
  /** How the paths end; default star. */
  readonly connection?: PhaseConnection;
  /** What the shop bends, for wishes about bar shapes; default hairpins. */
  readonly form?: BarForm;
  /** Search nodes allowed; default 400 000, about half a second. Results depend on it, never on time. */
  readonly nodeBudget?: number;
  /**
   * Where slots hold two phases, take paths that agree in angles and in layers but not in every cell, if
   * their currents deviate by slot leakage alone (an upper estimate) by no more than this share and the
   * connection is the better one. Default: none are taken.
   */
  readonly deviation?: number | null;
  /** Where the air gap lies, for that estimate; default inner. */
  readonly gap?: 'inner' | 'outer' | 'both';
}

/** What the router did and what is proved about the result. Counts are those of one phase. */
export interface RouteExplanation {
  readonly wishes: readonly RouteWish[];
  /** Where special spans may lie in this connection. */
  readonly specials: SpecialsPlace;
  /** Nothing was said about special spans, and with regular crowns there is no such connection. */
  readonly crownsNeeded: boolean;
  /** Paths agree in every cell (angle x layer), not only in angles and in layers. */
  readonly strict: boolean;
  /** Deviation of path currents by slot leakage that was accepted instead; null where none was. */
  readonly deviation: number | null;
  readonly measure: RouteMeasure;
  /**
   * Limits that made this the connection, each with what the best one without limits has of its quantity;
   * empty where that one is taken.
   */
  readonly limitsDecided: readonly ExceededLimit[];
  /** Joint tips lie far enough apart to be joined and no legs cross; false where nothing better was found. */
  readonly tipsFit: boolean;
  /** Arc in slots that holds the first bars of all paths of all phases. */
  readonly terminalWindow: number;
  /** Lower bounds; null where none is known for this kind of winding. */
  readonly bounds: RouteBounds | null;
  /** Counts that no routing with regular far-side joints can undercut, and with special crowns none at all. */
  readonly proved: readonly ('jumpers' | 'special-joints' | 'joint-shapes')[];
  readonly tried: readonly RouteTrial[];
}

/** A connection that was found. */
export interface FoundRoute {
  readonly ok: true;
  readonly paths: readonly Path[];
  readonly bends: Bends;
  readonly explanation: RouteExplanation;
}

export type RouteResult = FoundRoute | { readonly ok: false; readonly reason: RouteRefusal };
