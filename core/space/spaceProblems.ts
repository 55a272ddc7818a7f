import type { Bar, EndSide } from '../winding/model.ts';

/** What keeps bar ends from being bent or set as written, as data; lengths in m, layers from 0. */
export type SpaceProblem =
  | {
      /** The first bend would begin within the stack. */
      readonly kind: 'bend-in-slot';
      readonly side: EndSide;
      readonly layer: number;
      /** By how much. */
      readonly lacking: number;
      /** The end-straight that holds the bend, and the bend-radius with which the written one does; null: none. */
      readonly endStraight: number;
      readonly bendRadius: number | null;
    }
  | {
      /** The last bend would reach into the joint beyond its straight part. */
      readonly kind: 'bend-in-joint';
      readonly side: EndSide;
      readonly layer: number;
      readonly lacking: number;
      readonly jointStraight: number;
      readonly bendRadius: number | null;
    }
  | {
      /** Bends take more than there is of a leg. */
      readonly kind: 'leg-too-short';
      readonly side: EndSide;
      readonly layer: number;
      readonly lacking: number;
      readonly bendRadius: number | null;
    }
  | {
      /** The step along the radius takes more than there is of a leg. */
      readonly kind: 'step-does-not-fit';
      readonly side: EndSide;
      readonly layer: number;
      readonly lacking: number;
      /** Inner flat radius with which it fits; null: none. */
      readonly flatRadius: number | null;
    }
  | { readonly kind: 'crowns-cross'; readonly joints: readonly CrossedJoints[] }
  | {
      readonly kind: 'lead-without-place';
      readonly side: EndSide;
      readonly bar: Bar;
      readonly use: 'lead' | 'star' | 'piece';
      /** The end-clearance with which it has one; null: none. */
      readonly endClearance: number | null;
    }
  | {
      /** The joints of a side end at different heights. */
      readonly kind: 'joint-planes-differ';
      readonly side: EndSide;
      readonly lowest: number;
      readonly highest: number;
    }
  | {
      /** The two feet of a connecting piece are nearer each other than its two corners take. */
      readonly kind: 'piece-corners-tight';
      readonly joint: number;
      /** Inner radius that its corners have, less than 0 where its own height does not fit, and the one asked for. */
      readonly radius: number;
      readonly asked: number;
    }
  | {
      /** Connecting pieces that meet leads or other pieces wherever they run beside their feet. */
      readonly kind: 'pieces-without-room';
      readonly side: EndSide;
      readonly joints: readonly number[];
      /** What one piece takes along the radius, its clearance included. */
      readonly width: number;
    }
  | {
      /** Connecting pieces that reach over the air gap, by how much at most. */
      readonly kind: 'pieces-over-gap';
      readonly side: EndSide;
      readonly joints: readonly number[];
      readonly reach: number;
    }
  | {
      /** A ring reaches over the air gap, by how much. */
      readonly kind: 'ring-over-gap';
      readonly ring: string;
      readonly side: EndSide;
      readonly reach: number;
    };

/** A joint within a layer, and one that it crosses, by number. */
export interface CrossedJoints {
  readonly joint: number;
  readonly other: number;
}
