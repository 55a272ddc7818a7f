import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Facts } from '../../facts/facts.ts';
import { layerOfLetter } from '../../language/layerLetters.ts';
import { along, lineOf } from '../../space/cad/barLines.ts';
import { stationAt } from '../../space/curve.ts';
import { leadApart, type Piece } from '../../space/piece.ts';
import type { Section } from '../../space/section.ts';
import type { BarEnd, Space, SpaceBar } from '../../space/space.ts';
import { distance, type Vector } from '../../space/vectors.ts';
import { type Bar, barName, cellAt, type EndSide, phaseOfCell, type Winding } from '../../winding/model.ts';
import { upperSide } from './bodies.ts';
import { type Mesh, meshOf, tubeMesh } from './mesh.ts';
import { type NearPlace, nearPlaces } from './nearPlaces.ts';

/**
 * The bars in space as surfaces for a live view: every make of bar end, slot part, lead, connecting piece and
 * ring once, with the angles at which it stands. What a part belongs to is told by number: a bar by its place in
 * the slot table (layer times `slots` + slot - 1), anything else by the number of places + its index in `others`.
 */
export interface Solids {
  readonly slots: number;
  readonly layers: number;
  /** Within which everything stands: m from the axis, and along it from the middle of the stack. */
  readonly reach: { readonly radius: number; readonly low: number; readonly high: number };
  /** By number: index of the phase, -1 for none, and the parallel path, 0 for none. */
  readonly phases: Int8Array;
  readonly paths: Uint16Array;
  readonly others: readonly SolidThing[];
  readonly parts: readonly SolidPart[];
  readonly stack: Mesh;
  /** Names of terminals and star points. */
  readonly names: readonly SolidName[];
  /** Where bar ends collide or come too near each other, the worst of each kind on each side. */
  readonly places: readonly SolidPlace[];
}

/** A lead, a connecting piece or a ring. */
export interface SolidThing {
  readonly kind: 'lead' | 'piece' | 'ring';
  readonly side: EndSide;
  /** Of the bars it is joined to; all of them for a ring. */
  readonly layers: readonly number[];
  /** Number of the joint or path end; null for a ring. */
  readonly joint: number | null;
  /** The terminal or star point; empty for a connecting piece. */
  readonly name: string;
  readonly star: boolean;
}

/** Something of one make, wherever it stands. */
export interface SolidPart {
  /** Null within the stack. */
  readonly side: EndSide | null;
  readonly fine: Mesh;
  /** For while it is turned. */
  readonly coarse: Mesh;
  /** Radians about the axis, one for each place it stands at; and what it belongs to there. */
  readonly turns: Float32Array;
  readonly owners: Uint32Array;
  /** Number of the joint, lead or star connection that it is part of; 0 for none. */
  readonly joints: Uint16Array;
}

export interface SolidName {
  readonly text: string;
  readonly side: EndSide;
  /** m. */
  readonly at: Vector;
}

export interface SolidPlace {
  readonly letter: string;
  readonly side: EndSide;
  /** m. */
  readonly at: Vector;
  /** An error: a collision that does not rest on a bend radius that is assumed. */
  readonly fault: boolean;
  /** Numbers of the bars, as far as they are bars. */
  readonly owners: readonly number[];
}

/** Chords leave center lines by shares of the largest radius, and turn by no more than so many radians. */
const fine = { share: 1 / 700, mostTurn: Math.PI / 5, edged: true } as const;
const coarse = { share: 1 / 150, mostTurn: Math.PI / 2, edged: false } as const;

/** The bars of a winding as solids; null where something about them is not known. */
export function solidsOf(facts: Facts, barPath?: (bar: Bar) => number | undefined): Solids | null {
  const { winding, connection } = facts;
  const figure = facts.space().space;
  if (connection.kind !== 'connected' || !figure.known) return null;
  const space = figure.value;
  const owners = ownersOf(space, connection.facts);
  const parts = [...slotParts(space), ...endParts(space, owners), ...aboveParts(space, owners)];
  const inner = space.layers[0]!;
  const outer = space.layers.at(-1)!;
  return {
    slots: space.slots,
    layers: space.layers.length,
    reach: reachOf(space, parts),
    ...colorsOf(winding, owners, barPath),
    others: owners.others.map(({ thing }) => thing),
    parts,
    stack: tubeMesh(
      [inner.radius - 0.75 * inner.section.height, outer.radius + 0.75 * outer.section.height],
      [-space.stack / 2, space.stack / 2],
      96,
    ),
    names: namesOf(space, connection.facts),
    places: nearPlaces(facts).map((place) => placeOfSolids(place, space.slots)),
  };
}

/** Leads, pieces and rings, with their numbers and the bar whose phase and path they have. */
interface Owners {
  readonly others: readonly { readonly thing: SolidThing; readonly bar: Bar | null }[];
  /** Of the path end at the end of a bar; undefined where there is none. */
  readonly lead: (side: EndSide, bar: Bar) => number | undefined;
  readonly piece: (joint: number) => number;
  readonly ring: (index: number) => number;
}

function ownersOf(space: Space, connection: ConnectionFacts): Owners {
  const { slots, layers } = space;
  const places = slots * layers.length;
  const leads = connection.joints().ends;
  const allLayers = layers.map((_, layer) => layer);
  const ofLeads = leads.map(({ side, bar, number, terminal, kind }) => ({
    thing: {
      kind: 'lead' as const,
      side,
      layers: [bar.layer],
      joint: number,
      name: terminal,
      star: kind === 'star',
    },
    bar,
  }));
  const ofPieces = space.links.map(({ side, from, to, joint }) => ({
    thing: {
      kind: 'piece' as const,
      side,
      layers: [from.layer, to.layer],
      joint,
      name: '',
      star: false,
    },
    bar: from,
  }));
  const ofRings = space.rings.map(({ side, name, kind }) => ({
    thing: { kind: 'ring' as const, side, layers: allLayers, joint: null, name, star: kind === 'star' },
    bar: null,
  }));
  const leadAt = new Map(leads.map(({ side, bar }, index) => [`${side} ${barName(bar)}`, places + index]));
  const pieceAt = new Map(space.links.map(({ joint }, index) => [joint, places + leads.length + index]));
  return {
    others: [...ofLeads, ...ofPieces, ...ofRings],
    lead: (side, bar) => leadAt.get(`${side} ${barName(bar)}`),
    piece: (joint) => pieceAt.get(joint)!,
    ring: (index) => places + leads.length + space.links.length + index,
  };
}

function colorsOf(
  { table, slots, layers }: Winding,
  { others }: Owners,
  barPath?: (bar: Bar) => number | undefined,
): Pick<Solids, 'phases' | 'paths'> {
  const bars = Array.from({ length: slots * layers }, (_, place) => barAt(place, slots));
  const all: readonly (Bar | null)[] = [...bars, ...others.map(({ bar }) => bar)];
  const phase = (bar: Bar | null) => {
    const cell = bar === null ? 0 : cellAt(table, bar.slot, bar.layer);
    return cell === 0 ? -1 : phaseOfCell(cell);
  };
  return {
    phases: Int8Array.from(all, phase),
    paths: Uint16Array.from(all, (bar) => (bar === null ? 0 : (barPath?.(bar) ?? 0))),
  };
}

/** The bar at a place of the slot table. */
export function barAt(place: number, slots: number): Bar {
  return { slot: (place % slots) + 1, layer: Math.floor(place / slots) };
}

function placeOf({ slot, layer }: Bar, slots: number): number {
  return layer * slots + slot - 1;
}

/** Where something stands: its angle, what it belongs to, and its joint. */
interface Standing {
  readonly turn: number;
  readonly owner: number;
  readonly joint: number;
}

interface Made {
  readonly pieces: readonly Piece<unknown>[];
  readonly section: Section;
  readonly caps: readonly [boolean, boolean];
  readonly side: EndSide | null;
}

function partOf(space: Space, { pieces, section, caps, side }: Made, places: readonly Standing[]): SolidPart {
  const line = lineOf(section, along(pieces, 0));
  const largest = space.layers.at(-1)!.radius;
  const mesh = ({ share, mostTurn, edged }: typeof fine | typeof coarse) =>
    meshOf(line, { tolerance: share * largest, mostTurn, edged, caps });
  return {
    side,
    fine: mesh(fine),
    coarse: mesh(coarse),
    turns: Float32Array.from(places, ({ turn }) => turn),
    owners: Uint32Array.from(places, ({ owner }) => owner),
    joints: Uint16Array.from(places, ({ joint }) => joint),
  };
}

const bothEnds: readonly EndSide[] = ['connection', 'far'];

function slotParts(space: Space): readonly SolidPart[] {
  return space.slotParts.map((piece, layer) => {
    const places = space.bars.flatMap((bar) =>
      bar?.bar.layer === layer ? [{ turn: bar.turn, owner: placeOf(bar.bar, space.slots), joint: 0 }] : [],
    );
    const section = space.layers[layer]!.section;
    return partOf(space, { pieces: [piece], section, caps: [false, false], side: null }, places);
  });
}

/** The makes of bar ends; a lead that goes on beyond the joints is a part of its own. */
function endParts(space: Space, owners: Owners): readonly SolidPart[] {
  const users = new Map<BarEnd, SpaceBar[]>();
  for (const bar of space.bars)
    if (bar)
      for (const side of bothEnds) {
        const known = users.get(bar[side]);
        if (known) known.push(bar);
        else users.set(bar[side], [bar]);
      }
  return [...users].flatMap(([end, bars]) => {
    const { side, pieces, layer } = end;
    const section = space.layers[layer]!.section;
    const number = (bar: SpaceBar) => (side === 'connection' ? bar.connectionNumber : bar.farNumber);
    const standing = (bar: SpaceBar, owner: number): Standing => ({
      turn: bar.turn,
      owner,
      joint: number(bar),
    });
    const ofBars = bars.map((bar) => standing(bar, placeOf(bar.bar, space.slots)));
    const leads = bars.flatMap((bar) => {
      const owner = owners.lead(side, bar.bar);
      return owner === undefined ? [] : [standing(bar, owner)];
    });
    const apart = leadApart(pieces);
    const led = apart.lead.length > 0 && leads.length === bars.length;
    const own = led ? apart.own : pieces;
    const made = { section, side, caps: [false, true] } as const;
    return [
      ...(own.length > 0 ? [partOf(space, { ...made, pieces: own }, ofBars)] : []),
      ...(led ? [partOf(space, { ...made, pieces: apart.lead }, leads)] : []),
    ];
  });
}

/** Connecting pieces and rings; pieces of one center line are one make. */
function aboveParts(space: Space, owners: Owners): readonly SolidPart[] {
  const alike = new Map<unknown, Standing[]>();
  for (const { pieces, turn, joint } of space.links)
    alike.set(pieces, [...(alike.get(pieces) ?? []), { turn, owner: owners.piece(joint), joint }]);
  const links = [...new Map(space.links.map((link) => [link.pieces, link])).values()].map(
    ({ pieces, section, side }) =>
      partOf(space, { pieces, section, side, caps: [true, true] }, alike.get(pieces)!),
  );
  const rings = space.rings.map(({ piece, section, side }, index) =>
    partOf(space, { pieces: [piece], section, side, caps: [true, true] }, [
      { turn: 0, owner: owners.ring(index), joint: 0 },
    ]),
  );
  return [...links, ...rings];
}

function reachOf(space: Space, parts: readonly SolidPart[]): Solids['reach'] {
  let [radius, low, high] = [0, -space.stack / 2, space.stack / 2];
  for (const { coarse: mesh } of parts)
    for (let at = 0; at < mesh.positions.length; at += 3) {
      radius = Math.max(radius, Math.hypot(mesh.positions[at]!, mesh.positions[at + 1]!));
      low = Math.min(low, mesh.positions[at + 2]!);
      high = Math.max(high, mesh.positions[at + 2]!);
    }
  return { radius, low, high };
}

/** Names at the ends of leads that no ring takes up, and on rings. */
function namesOf(space: Space, connection: ConnectionFacts): readonly SolidName[] {
  const ringed = new Set(
    space.rings.flatMap(({ side, bars }) => bars.map((bar) => `${side} ${barName(bar)}`)),
  );
  const leads = connection.joints().ends.flatMap(({ side, bar, terminal }): readonly SolidName[] => {
    const own = space.bars[placeOf(bar, space.slots)];
    const piece = own?.[side].pieces.at(-1);
    if (!own || !piece || ringed.has(`${side} ${barName(bar)}`)) return [];
    return [{ text: terminal, side, at: stationAt(piece.curve, 1, own.turn).point }];
  });
  const names = [...leads];
  for (const ring of space.rings) {
    // Rings lie above each other: each name where it stands farthest from those before.
    const [first, ...others] = alongRing.map((fraction) => upperSide(ring, fraction)) as [
      Vector,
      ...Vector[],
    ];
    const room = (at: Vector) => Math.min(...names.map((name) => distance(name.at, at)));
    const free = others.reduce((best, at) => (room(at) > room(best) + 1e-9 ? at : best), first);
    names.push({ text: ring.name, side: ring.side, at: free });
  }
  return names;
}

/** Where a ring's name may stand, as shares of its length, the best first. */
const alongRing = [0.5, 0.3, 0.7, 0.1, 0.9];

function placeOfSolids({ letter, side, at, collides, judged, bars }: NearPlace, slots: number): SolidPlace {
  const owners = bars.flatMap((words) => words.split('–').flatMap((name) => placesNamed(name, slots)));
  return { letter, side, at, fault: collides && judged, owners };
}

/** The place of a bar by its name, `7b`; nothing for the name of something else. */
function placesNamed(name: string, slots: number): readonly number[] {
  const found = /^(\d+)([a-z])$/.exec(name);
  if (!found) return [];
  return [placeOf({ slot: Number(found[1]), layer: layerOfLetter(found[2]!) }, slots)];
}
