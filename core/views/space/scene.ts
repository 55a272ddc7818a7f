import type { ConnectionFacts } from '../../facts/connection.ts';
import type { Steps } from '../../figures/steps.ts';
import { textBox } from '../../picture/bounds.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { filledShape, pathShape, text, textSize } from '../../picture/make.ts';
import type { PathPart, Primitive, Text } from '../../picture/picture.ts';
import type { Space } from '../../space/space.ts';
import { cross, difference, type Vector } from '../../space/vectors.ts';
import { barName, cellAt, phaseOfCell } from '../../winding/model.ts';
import { clearTexts, type Stretch, stretchesOf, stretchMeets } from '../chart/labels.ts';
import { emphasisOf } from '../layout/bars.ts';
import type { LayoutInput } from '../layout/input.ts';
import { type Body, bodySteps } from './bodies.ts';
import { type Camera, cameraAt } from './camera.ts';
import type { NearPlace } from './nearPlaces.ts';
import { type PlaceMarks, placeMarks } from './placeMarks.ts';
import { outlineSteps, type Projected, rasterOf } from './visible.ts';

/** Whose bars are drawn, and what stands out of them. */
export interface SceneInput extends Pick<LayoutInput, 'winding' | 'barPath' | 'barSource' | 'emphasis'> {
  /** Roughly, in a third of the time. */
  readonly coarse?: boolean | undefined;
}

/** Most that the drawing may take on paper, mm. */
export interface DrawingRoom {
  /** To both sides together. */
  readonly across: number;
  /** From top to bottom. */
  readonly up: number;
  /** Millimeters of paper for one of the machine at most. */
  readonly scale?: number | undefined;
}

/** The drawing of the bars in space: its size is known before it is drawn. */
export interface Scene {
  /** mm, names above it included. */
  readonly width: number;
  /** mm. */
  readonly height: number;
  /** Millimeters of paper for one of the machine. */
  readonly scale: number;
  /** Draws it with its top left corner at a place, in steps. */
  readonly draw: (left: number, top: number, wish?: SceneWish) => Steps<DrawnScene>;
}

export interface SceneWish {
  /** What ids begin with. */
  readonly prefix?: string;
  /** Places to be marked with their letters. */
  readonly places?: readonly NearPlace[];
}

export interface DrawnScene {
  readonly bodies: readonly Primitive[];
  readonly shade: readonly Primitive[];
  readonly names: readonly Text[];
  /** Circles round marked places with lines to their letters, and the letters. */
  readonly marks: readonly Primitive[];
  /** Bars of which anything is seen. */
  readonly seen: number;
}

/** Radians about the axis and above the level; pixels of the raster for a millimeter of paper. */
const view = { turn: -0.6, above: 0.5 } as const;
const fineness = { fine: 9, coarse: 5 } as const;
/** Outlines are straight within so many pixels; smaller specks are left out. */
const tolerance = 0.6;
const speck = 3;
/** Chords leave center lines by no more than this, mm on paper. */
const chordError = 0.04;
/** Room for names above the highest ends, mm. */
const nameRoom = 6;

/** The bars of a winding in space, with hidden parts left out, in steps. */
export function* sceneSteps(
  input: SceneInput,
  space: Space,
  connection: ConnectionFacts,
  room: DrawingRoom,
): Steps<Scene> {
  const camera = cameraAt(view.turn, view.above);
  const rough = yield* bodySteps(space, connection, space.layers.at(-1)!.radius / 200);
  const frame = yield* frameSteps(rough, camera, { ...room, up: room.up - nameRoom });
  const pixels = fineness[input.coarse ? 'coarse' : 'fine'];
  return {
    width: frame.width,
    height: frame.height + nameRoom,
    scale: frame.scale,
    draw: function* (left, top, wish = {}) {
      const bodies = yield* bodySteps(space, connection, chordError / (1000 * frame.scale));
      return yield* drawn(input, bodies, camera, frame, pixels, { left, top: top + nameRoom }, wish);
    },
  };
}

function* drawn(
  input: SceneInput,
  bodies: readonly Body[],
  camera: Camera,
  frame: Frame,
  pixels: number,
  place: { readonly left: number; readonly top: number },
  { prefix = '', places = [] }: SceneWish,
): Steps<DrawnScene> {
  const onRaster = (at: Vector): Projected => [
    (1000 * along(at, camera.right) - frame.left) * frame.scale * pixels,
    (-1000 * along(at, camera.up) - frame.top) * frame.scale * pixels,
    along(at, camera.towards),
  ];
  const { shown, dark, sideAt, ownerOf } = yield* seenParts(bodies, frame, pixels, onRaster, place);
  const items: Primitive[] = [];
  bodies.forEach((body, index) => {
    const parts = shown[index]!;
    if (parts.length === 0) return;
    items.push(shapeOf(input, body, parts));
    // The stack is a tint; its edges are lines of their own.
    if (body.thing.kind === 'stack') items.push(pathShape('stack-edges', 'core-edge', parts.map(closed)));
  });
  const onPaper = (at: Vector): readonly [number, number] => {
    const [x, y] = onRaster(at);
    return [place.left + x / pixels, place.top + y / pixels];
  };
  const faceAt = (x: number, y: number): number =>
    sideAt((x - place.left) * pixels, (y - place.top) * pixels);
  // The side of a body, or the ground, that a text lies on whole; null where it lies across edges or reaches out.
  const groundOf = (x: number, y: number, width: number): number | null => {
    const half = 0.5 * (width + 1);
    const right = x - place.left;
    if (right < half || right > frame.width - half || y - place.top < 2.4 - nameRoom) return null;
    const ground = faceAt(x, y - 0.9);
    for (let up = -2.4; up <= 0.7; up += 1 / pixels)
      for (let across = -half; across <= half; across += 1 / pixels)
        if (faceAt(x + across, y + up) !== ground) return null;
    return ground;
  };
  const free = (x: number, y: number, width: number): boolean => {
    const down = y - place.top;
    const ground = down > 2.4 && down < frame.height - 0.7 ? groundOf(x, y, width) : null;
    return ground === 0 || (ground !== null && bodies[ownerOf(ground)]?.thing.kind === 'stack');
  };
  const paper = {
    onPaper,
    groundOf,
    free,
    frontAt: (x: number, y: number) => ownerOf(faceAt(x, y)),
    ownerOf,
  };
  const marks = placeMarks(places, {
    spotOf: ({ at }) => onPaper(at),
    inSight: ({ at, bars }) => {
      const [x, y] = onRaster(at);
      const front = bodies[ownerOf(sideAt(x, y))]?.thing;
      return front !== undefined && bars.includes(nameOf(front));
    },
    clear: ([x, y], half) => {
      const [dx, dy] = [x - place.left, y - place.top];
      if (dx < half || dx > frame.width - half || dy < half || dy > frame.height - half) return false;
      for (let across = -half; across <= half; across += thinnest)
        for (let up = -half; up <= half; up += thinnest)
          if (sideAt((dx + across) * pixels, (dy + up) * pixels) !== 0) return false;
      return true;
    },
  });
  const named = <T extends Primitive>(item: T): T => ({ ...item, id: prefix + item.id });
  const near = namesOf(input, bodies, paper, marks);
  const led = ledNames(input, bodies, paper, near, marks);
  return {
    bodies: items.map(named),
    shade: dark.length > 0 ? [named(filledShape('shade', 'space-shade', dark))] : [],
    names: [...near, ...led.names].map(named),
    marks: [...led.lines, ...marks.lines, ...marks.letters].map(named),
    seen: bodies.filter(({ thing }, index) => thing.kind === 'bar' && shown[index]!.length > 0).length,
  };
}

/** What is drawn thinner than this does not keep letters away, mm on paper. */
const thinnest = 0.3;

/** How a picture lies on paper: millimeters of paper for a millimeter, and its size. */
interface Frame {
  readonly scale: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

function along(at: Vector, way: Vector): number {
  return at[0] * way[0] + at[1] * way[1] + at[2] * way[2];
}

/** Turns places about the axis by an angle (radians about +z). */
function turning(turn: number): (at: Vector) => Vector {
  const [cosine, sine] = [Math.cos(turn), Math.sin(turn)];
  return ([x, y, z]) => [x * cosine - y * sine, x * sine + y * cosine, z];
}

/** Bodies from one step to the next. */
const bodiesAtOnce = 25;

function* frameSteps(bodies: readonly Body[], { right, up }: Camera, room: DrawingRoom): Steps<Frame> {
  let [left, most, top, lowest] = [1e9, -1e9, 1e9, -1e9];
  for (const [index, { faces, turn }] of bodies.entries()) {
    if (index % bodiesAtOnce === 0) yield;
    const place = turning(turn);
    for (const quads of faces)
      for (const quad of quads)
        for (const corner of quad) {
          const at = place(corner);
          const x = 1000 * along(at, right);
          const y = -1000 * along(at, up);
          left = Math.min(left, x);
          most = Math.max(most, x);
          top = Math.min(top, y);
          lowest = Math.max(lowest, y);
        }
  }
  const margin = 0.01 * Math.max(most - left, lowest - top);
  [left, most, top, lowest] = [left - margin, most + margin, top - margin, lowest + margin];
  const fitted = Math.min(room.across / (most - left), room.up / (lowest - top));
  const scale = Math.min(fitted, room.scale ?? fitted);
  return { scale, left, top, width: (most - left) * scale, height: (lowest - top) * scale };
}

/** A corner of a face, where it stands, and where that is on the raster. */
interface Stood {
  readonly corner: Vector;
  readonly at: Vector;
  readonly seen: Projected;
}

/** What is seen of each body, and of all faces that turn away from the light, on paper. */
function* seenParts(
  bodies: readonly Body[],
  frame: Frame,
  pixels: number,
  onRaster: (at: Vector) => Projected,
  place: { readonly left: number; readonly top: number },
) {
  const raster = rasterOf(Math.ceil(frame.width * pixels), Math.ceil(frame.height * pixels));
  const sides: { readonly body: number; light: number; weight: number }[] = [];
  for (const [body, { faces, turn }] of bodies.entries()) {
    if (body % bodiesAtOnce === 0) yield;
    const stand = turning(turn);
    const stood = (corner: Vector): Stood => {
      const at = stand(corner);
      return { corner, at, seen: onRaster(at) };
    };
    for (const quads of faces) {
      const side = { body, light: 0, weight: 0 };
      const number = sides.push(side);
      let third: Stood | null = null;
      let last: Stood | null = null;
      for (const quad of quads) {
        // Mostly a face begins where the one before it ends.
        const first: Stood = last?.corner === quad[0] ? last : stood(quad[0]);
        const second: Stood = third?.corner === quad[1] ? third : stood(quad[1]);
        third = stood(quad[2]);
        last = stood(quad[3]);
        raster.quad(number, first.seen, second.seen, third.seen, last.seen);
        addLight(side, first.at, second.at, last.at);
      }
    }
  }
  const shown: PathPart[][] = bodies.map(() => []);
  const dark: PathPart[] = [];
  const seen = raster.visibility();
  for (const [side, outlines] of yield* outlineSteps(seen, tolerance, speck)) {
    const { body, light, weight } = sides[side - 1]!;
    const parts = outlines.map((outline) =>
      outline.map((value, index) => round((index % 2 === 0 ? place.left : place.top) + value / pixels)),
    );
    shown[body]!.push(...parts);
    if (light < shadeBelow * weight && bodies[body]!.thing.kind !== 'stack') dark.push(...parts);
  }
  const sideAt = (x: number, y: number): number => {
    const [column, row] = [Math.floor(x), Math.floor(y)];
    const within = column >= 0 && column < seen.width && row >= 0 && row < seen.height;
    return within ? seen.faces[row * seen.width + column]! : 0;
  };
  return { shown, dark, sideAt, ownerOf: (side: number) => sides[side - 1]?.body ?? -1 };
}

function closed(part: PathPart): PathPart {
  return [...part, part[0]!, part[1]!];
}

/** To a hundredth of a millimeter. */
function round(value: number): number {
  return Math.round(value * 100) / 100;
}

/** Where the light comes from, as the eye sees it: from the upper left. */
const light: Vector = [-0.35, -0.5, -0.8];
const shadeBelow = 0.05;

/** Counts how much light a face gets, by its area: from its first corner to the next and to the last. */
function addLight(side: { light: number; weight: number }, at: Vector, next: Vector, last: Vector): void {
  const normal = cross(difference(next, at), difference(last, at));
  side.light += along(normal, light);
  side.weight += Math.hypot(normal[0], normal[1], normal[2]);
}

function shapeOf(input: SceneInput, { thing }: Body, parts: readonly PathPart[]): Primitive {
  switch (thing.kind) {
    case 'stack':
      return filledShape('stack', 'core', parts);
    case 'ring': {
      const { name, kind, side } = thing.ring;
      const subject = kind === 'star' ? { star: name } : { terminal: name };
      return filledShape(`ring-${side}-${name.replace(' ', '-')}`, 'space-ring', parts, { subject });
    }
    case 'piece': {
      const { link } = thing;
      const extras = barExtras(input, link.from, [link.from.layer, link.to.layer], link.side);
      const subject = { joint: link.joint };
      return filledShape(`joint-${link.joint}`, 'bar-section', parts, { ...extras, subject });
    }
    case 'lead': {
      const { bar, side, terminal, joint, star } = thing;
      const subject = star ? { star: terminal, joint } : { terminal, joint };
      const extras = barExtras(input, bar, [bar.layer], side);
      return filledShape(`lead-${joint}`, 'bar-section', parts, { ...extras, subject });
    }
    case 'bar': {
      const subject = { bar: barName(thing.bar) };
      const extras = barExtras(input, thing.bar, [thing.bar.layer]);
      return filledShape(`bar-${subject.bar}`, 'bar-section', parts, { ...extras, subject });
    }
  }
}

/** What clearances call it. */
function nameOf(thing: Body['thing']): string {
  switch (thing.kind) {
    case 'bar':
    case 'lead':
      return barName(thing.bar);
    case 'piece':
      return `${barName(thing.link.from)}–${barName(thing.link.to)}`;
    case 'ring':
      return `ring ${thing.ring.name}`;
    case 'stack':
      return '';
  }
}

function barExtras(
  input: SceneInput,
  bar: { readonly slot: number; readonly layer: number },
  layers: readonly number[],
  side?: 'connection' | 'far',
) {
  const phase = phaseOfCell(cellAt(input.winding.table, bar.slot, bar.layer));
  const path = input.barPath?.(bar);
  return {
    phase,
    path,
    source: input.barSource?.(bar),
    emphasis: emphasisOf(input, phase, path, { layers, ...(side ? { side } : {}) }),
  };
}

/** Where names may stand: on paper, on one side of a body. */
interface NameGround {
  readonly onPaper: (at: Vector) => readonly [number, number];
  readonly groundOf: (x: number, y: number, width: number) => number | null;
  /** Whether a text would lie beside all bars, within the drawing. */
  readonly free: (x: number, y: number, width: number) => boolean;
  /** Index of the body that is seen at a place; -1: none. */
  readonly frontAt: (x: number, y: number) => number;
  readonly ownerOf: (side: number) => number;
}

/** Names at the ends of leads and on rings of the connection side, as many as lie on one ground there. */
function namesOf(
  input: SceneInput,
  bodies: readonly Body[],
  ground: NameGround,
  marks: PlaceMarks,
): readonly Text[] {
  const named = namedLeads(bodies);
  const tips = tipsOf(bodies, ground);
  const texts = bodies.flatMap((body, index): readonly Text[] => {
    const { thing } = body;
    if (thing.kind === 'ring') return thing.ring.side === 'connection' ? ringName(body, index, ground) : [];
    return named(thing) ? leadName(input, body, ground, tips) : [];
  });
  return clearTexts(texts.filter((name) => !isStruck(name, marks)));
}

/** Whether a circle or a line of a mark leads through a name. */
function isStruck(name: Text, { lines }: PlaceMarks): boolean {
  const box = textBox(name);
  return lines.some(({ parts }) =>
    parts.some((part) => stretchesOf(part).some((stretch) => stretchMeets(stretch, box))),
  );
}

/** Which leads of the connection side have a name of their own: those that no ring joins. */
function namedLeads(bodies: readonly Body[]): (thing: Body['thing']) => boolean {
  const ringed = new Set(
    bodies.flatMap(({ thing }) =>
      thing.kind === 'ring' ? thing.ring.bars.map((bar) => `${thing.ring.side} ${barName(bar)}`) : [],
    ),
  );
  return (thing) =>
    thing.kind === 'lead' && thing.side === 'connection' && !ringed.has(`connection ${barName(thing.bar)}`);
}

type Spot = readonly [x: number, y: number];

/** Where the named leads end on paper. */
function tipsOf(bodies: readonly Body[], { onPaper }: NameGround): readonly Spot[] {
  const isNamed = namedLeads(bodies);
  return bodies.flatMap(({ thing, names: [tip] }) => (tip && isNamed(thing) ? [onPaper(tip)] : []));
}

/** Whether a name at a place would be taken for that of another lead, whose end is nearer than the own one and than `most`. */
function mistaken([x, y]: Spot, own: Spot, tips: readonly Spot[], most: number): boolean {
  const far = Math.min(most, Math.hypot(x - own[0], y - own[1]));
  return tips.some(
    ([tipX, tipY]) => (tipX !== own[0] || tipY !== own[1]) && Math.hypot(x - tipX, y - tipY) < far,
  );
}

/** Whether two stretches cross. */
function crosses([ax, ay, bx, by]: Stretch, [cx, cy, dx, dy]: Stretch): boolean {
  const side = (x1: number, y1: number, x2: number, y2: number, x: number, y: number) =>
    (x2 - x1) * (y - y1) - (y2 - y1) * (x - x1);
  return (
    side(ax, ay, bx, by, cx, cy) * side(ax, ay, bx, by, dx, dy) < 0 &&
    side(cx, cy, dx, dy, ax, ay) * side(cx, cy, dx, dy, bx, by) < 0
  );
}

/** From what is named to a name at the end of a line: at least and at most, mm. */
const ledFrom = 6;
const ledTo = 60;
const ledStep = 2;
const ledWays = 24;

/** Names of leads and rings in sight that have no room there, beside the bars, each with a line to what it names. */
function ledNames(
  input: SceneInput,
  bodies: readonly Body[],
  ground: NameGround,
  near: readonly Text[],
  marks: PlaceMarks,
): { readonly names: readonly Text[]; readonly lines: readonly Primitive[] } {
  const has = new Set(near.map(({ id }) => id));
  const names: Text[] = [];
  const leaders = [...marks.leaders];
  const lines: Primitive[] = [];
  const isNamed = namedLeads(bodies);
  const tips = tipsOf(bodies, ground);
  const lead = (at: Spot, { id, words, extras }: Called, line: string): boolean => {
    const [x, y] = at;
    const width = textWidth(words, textSize);
    for (let away = ledFrom; away <= ledTo; away += ledStep)
      for (let way = 0; way < ledWays; way++) {
        // Upwards first, then to both sides.
        const angle = (Math.ceil(way / 2) * (way % 2 === 0 ? 1 : -1) * 2 * Math.PI) / ledWays - Math.PI / 2;
        const [toX, toY] = [x + away * Math.cos(angle), y + away * Math.sin(angle)];
        if (mistaken([toX, toY], at, tips, ledFrom) || !ground.free(toX, toY + 0.9, width)) continue;
        const name = text(id, 'terminal-name', toX, toY + 0.9, words, { anchor: 'middle', ...extras });
        // The line stops short of the letters.
        const share = (away - width / 2 - 1.2) / away;
        const leader: Stretch = [x, y, x + (toX - x) * share, y + (toY - y) * share];
        const all = [...near, ...marks.letters, ...names];
        const clear =
          !isStruck(name, marks) &&
          clearTexts([name], all, 1).length > 0 &&
          all.every((other) => !stretchMeets(leader, textBox(other))) &&
          leaders.every((other) => !stretchMeets(other, textBox(name)) && !crosses(leader, other));
        if (!clear) continue;
        names.push(name);
        leaders.push(leader);
        lines.push(pathShape(line, 'dimension-line', [[...leader]]));
        return true;
      }
    return false;
  };
  bodies.forEach(({ thing, names: [tip] }, index) => {
    if (thing.kind !== 'lead' || tip === undefined || !isNamed(thing)) return;
    const called = calledLead(input, thing);
    const [x, y] = ground.onPaper(tip);
    if (has.has(called.id) || ground.frontAt(x, y + 0.4) !== index) return;
    lead([x, y], called, `lead-leader-${thing.joint}`);
  });
  bodies.forEach(({ thing, names: places }, index) => {
    if (thing.kind !== 'ring' || thing.ring.side !== 'connection') return;
    const called = calledRing(thing);
    if (has.has(called.id)) return;
    const inSight = places.map(ground.onPaper).filter(([x, y]) => ground.frontAt(x, y) === index);
    inSight.some((at) => lead(at, called, called.id.replace('name', 'leader')));
  });
  return { names, lines };
}

/** A ring's name, where all of it lies on the ring's upper side. */
function ringName({ thing, names }: Body, index: number, ground: NameGround): readonly Text[] {
  if (thing.kind !== 'ring') return [];
  const { id, words, extras } = calledRing(thing);
  const width = textWidth(words, textSize);
  const places = names.map(ground.onPaper).map(([x, y]) => [x, y + 0.9] as const);
  const place = places.find(([x, y]) => {
    const side = ground.groundOf(x, y, width);
    return side !== null && ground.ownerOf(side) === index;
  });
  if (place === undefined) return [];
  return [text(id, 'terminal-name', ...place, words, { anchor: 'middle', ...extras })];
}

/** A lead's name, above its end or beside it, where it lies on one ground and is nearer to no other lead's end. */
function leadName(
  input: SceneInput,
  { thing, names }: Body,
  ground: NameGround,
  tips: readonly Spot[],
): readonly Text[] {
  const [tip] = names;
  if (thing.kind !== 'lead' || tip === undefined) return [];
  const { id, words, extras } = calledLead(input, thing);
  const width = textWidth(words, textSize);
  const [x, y] = ground.onPaper(tip);
  const aside = width / 2 + 3;
  const places = [
    [x, y - 2],
    [x, y - 3.5],
    [x + aside, y],
    [x - aside, y],
    [x, y - 5.5],
  ] as const;
  const place = places.find(
    ([atX, atY]) =>
      ground.groundOf(atX, atY, width) !== null &&
      !mistaken([atX, atY - 0.9], [x, y], tips, Number.POSITIVE_INFINITY),
  );
  if (place === undefined) return [];
  return [text(id, 'terminal-name', ...place, words, { anchor: 'middle', ...extras })];
}

/** A name in the drawing, before it has a place. */
interface Called {
  readonly id: string;
  readonly words: string;
  readonly extras: Partial<Text>;
}

function calledLead(input: SceneInput, thing: Extract<Body['thing'], { readonly kind: 'lead' }>): Called {
  const { bar, side, terminal, joint, star } = thing;
  const subject = star ? { star: terminal, joint } : { terminal, joint };
  const extras = { ...barExtras(input, bar, [bar.layer], side), subject };
  return { id: `lead-name-${joint}`, words: terminal, extras };
}

function calledRing({ ring }: Extract<Body['thing'], { readonly kind: 'ring' }>): Called {
  const { name, kind } = ring;
  const subject = kind === 'star' ? { star: name } : { terminal: name };
  return { id: `ring-name-${name.replace(' ', '-')}`, words: name, extras: { subject } };
}
