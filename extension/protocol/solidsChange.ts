import type { Mesh } from '../../core/views/space/mesh.ts';
import type { SolidPart, Solids } from '../../core/views/space/solids.ts';
import type { SpaceWords } from '../../core/views/space/space.ts';
import { type Fields, hasTexts, isCount, isListOf, isRecord, isSize, isTexts } from './values.ts';

/** Bars in space as they are shown. */
export type ShownSolids = { readonly kind: 'solids'; readonly solids: Solids } & SpaceWords;

/** What changes of them; what is left out stays as it was. The surfaces go as typed arrays, all of them or none. */
export interface SolidsChange {
  readonly kind: 'solids';
  readonly head?: SolidsHead;
  readonly colors?: Pick<Solids, 'phases' | 'paths'>;
  readonly shapes?: Pick<Solids, 'parts' | 'stack'>;
}

type SolidsHead = Pick<ShownSolids, 'title' | 'description' | 'notes'> &
  Pick<Solids, 'slots' | 'layers' | 'reach' | 'others' | 'names' | 'places'>;

/**
 * What is sent where one follows on another; null where nothing changes.
 */
export function solidsChange(before: ShownSolids | null, content: ShownSolids): SolidsChange | null {
  const { solids } = content;
  const old = before?.solids;
  const head = headOf(content);
  const sameHead = before !== null && JSON.stringify(headOf(before)) === JSON.stringify(head);
  const sameColors = old && sameBytes(old.phases, solids.phases) && sameBytes(old.paths, solids.paths);
  const sameShapes =
    old?.parts.length === solids.parts.length &&
    sameMesh(old.stack, solids.stack) &&
    solids.parts.every((part, index) => samePart(part, old.parts[index]!));
  if (sameHead && sameColors && sameShapes) return null;
  return {
    kind: 'solids',
    ...(sameHead ? {} : { head }),
    ...inOnePiece({
      ...(sameColors ? {} : { colors: solids }),
      ...(sameShapes ? {} : { shapes: solids }),
    }),
  };
}

/** The bars that follow; null where the change does not fit. Parts that stay are the same objects. */
export function followSolids(
  before: ShownSolids | null,
  { head, colors, shapes }: Fields,
): ShownSolids | null {
  const heading = head ?? (before && headOf(before));
  const coloring = colors ?? before?.solids;
  const standing = shapes ?? before?.solids;
  if (!isHead(heading) || !areColors(coloring) || !areShapes(standing)) return null;
  const { title, description, notes, ...rest } = heading;
  const { phases, paths } = coloring;
  const { parts, stack } = standing;
  return { kind: 'solids', title, description, notes, solids: { ...rest, phases, paths, parts, stack } };
}

function headOf({ title, description, notes, solids }: ShownSolids): SolidsHead {
  const { slots, layers, reach, others, names, places } = solids;
  return { title, description, notes, slots, layers, reach, others, names, places };
}

type Lists = Required<Pick<SolidsChange, 'colors' | 'shapes'>>;

/**
 * Copies of lists of numbers, all in one piece of memory: the editor takes it away with them, and a message of more
 * than 255 pieces arrives as another one.
 */
function inOnePiece({ colors, shapes }: Pick<SolidsChange, 'colors' | 'shapes'>): Partial<Lists> {
  const aligned = (bytes: number) => Math.ceil(bytes / 4) * 4;
  let size = 0;
  const measure = <List extends Bytes>(list: List): List => {
    size += aligned(list.byteLength);
    return list;
  };
  const all = (each: <List extends Bytes>(list: List) => List): Partial<Lists> => ({
    ...(colors && { colors: { phases: each(colors.phases), paths: each(colors.paths) } }),
    ...(shapes && {
      shapes: {
        parts: shapes.parts.map((part) => eachOfPart(part, each)),
        stack: eachOfMesh(shapes.stack, each),
      },
    }),
  });
  all(measure);
  const memory = new ArrayBuffer(size);
  let at = 0;
  return all((list) => {
    const kind = list.constructor as new (memory: ArrayBuffer, at: number, length: number) => typeof list;
    const copy = new kind(memory, at, list.length);
    copy.set(list);
    at += aligned(list.byteLength);
    return copy;
  });
}

type Each = <List extends Bytes>(list: List) => List;

function eachOfMesh({ positions, normals, shades, triangles }: Mesh, each: Each): Mesh {
  return {
    positions: each(positions),
    normals: each(normals),
    shades: each(shades),
    triangles: each(triangles),
  };
}

function eachOfPart({ side, fine, coarse, turns, owners, joints }: SolidPart, each: Each): SolidPart {
  return {
    side,
    fine: eachOfMesh(fine, each),
    coarse: eachOfMesh(coarse, each),
    turns: each(turns),
    owners: each(owners),
    joints: each(joints),
  };
}

type Bytes = Float32Array | Int8Array | Uint8Array | Uint16Array | Uint32Array;

function sameBytes(one: Bytes, other: Bytes): boolean {
  return one.length === other.length && one.every((value, index) => value === other[index]);
}

function sameMesh(one: Mesh, other: Mesh): boolean {
  return (
    sameBytes(one.positions, other.positions) &&
    sameBytes(one.normals, other.normals) &&
    sameBytes(one.shades, other.shades) &&
    sameBytes(one.triangles, other.triangles)
  );
}

function samePart(one: SolidPart, other: SolidPart): boolean {
  return (
    one.side === other.side &&
    sameBytes(one.turns, other.turns) &&
    sameBytes(one.owners, other.owners) &&
    sameBytes(one.joints, other.joints) &&
    sameMesh(one.fine, other.fine) &&
    sameMesh(one.coarse, other.coarse)
  );
}

function isHead(value: unknown): value is SolidsHead {
  return (
    hasTexts(value, ['title', 'description']) &&
    isTexts(value.notes) &&
    isCount(value.slots) &&
    isCount(value.layers) &&
    isRecord(value.reach) &&
    isSize(value.reach.radius) &&
    typeof value.reach.low === 'number' &&
    typeof value.reach.high === 'number' &&
    [value.others, value.names, value.places].every((list) => isListOf(list, isRecord))
  );
}

function areColors(value: unknown): value is Pick<Solids, 'phases' | 'paths'> {
  return isRecord(value) && value.phases instanceof Int8Array && value.paths instanceof Uint16Array;
}

function areShapes(value: unknown): value is Pick<Solids, 'parts' | 'stack'> {
  return isRecord(value) && isMesh(value.stack) && isListOf(value.parts, isPart);
}

function isPart(value: unknown): value is SolidPart {
  return (
    isRecord(value) &&
    value.turns instanceof Float32Array &&
    value.owners instanceof Uint32Array &&
    value.joints instanceof Uint16Array &&
    isMesh(value.fine) &&
    isMesh(value.coarse)
  );
}

function isMesh(value: unknown): value is Mesh {
  return (
    isRecord(value) &&
    value.positions instanceof Float32Array &&
    value.normals instanceof Int8Array &&
    value.shades instanceof Uint8Array &&
    (value.triangles instanceof Uint16Array || value.triangles instanceof Uint32Array)
  );
}
