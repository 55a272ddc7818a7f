import type { Path, Winding } from '../../core/winding/model.ts';

/**
 * A referee for routings, written apart from the router and from core/winding/joints/joints.ts. It knows only
 * the slot table and flat lists: which bar is joined to which on which side, with what signed span.
 */
export interface FlatJoint {
  readonly side: 'C' | 'F';
  readonly fromSlot: number;
  readonly fromLayer: number;
  readonly toSlot: number;
  readonly toLayer: number;
  readonly span: number;
  readonly path: number;
}

export type JointClass = 'A' | 'B' | 'C' | 'D' | 'E' | 'F';

/** How the winding is wound, as the test itself knows it from the machine. */
export interface RefereeLayout {
  readonly span: number;
  /** Tooth coils whose pole-pair period is no whole number of slots: no joints within a pair on C. */
  readonly tooth: boolean;
}

/** Joints of all paths as one flat list. */
export function flatten(paths: readonly Path[]): FlatJoint[] {
  const list: FlatJoint[] = [];
  for (let path = 0; path < paths.length; path++) {
    const { bars, spans, startsFar } = paths[path]!;
    for (let i = 0; i + 1 < bars.length; i++) {
      const far = startsFar ? i % 2 === 1 : i % 2 === 0;
      const a = bars[i]!;
      const b = bars[i + 1]!;
      list.push({
        side: far ? 'F' : 'C',
        fromSlot: a.slot,
        fromLayer: a.layer,
        toSlot: b.slot,
        toLayer: b.layer,
        span: spans[i]!,
        path,
      });
    }
  }
  return list;
}

/** Class letters by geometry alone: leans drawn as arrows, layer distance, nominal spans. */
export function classOf(winding: Winding, layout: RefereeLayout, joint: FlatJoint): JointClass {
  const period = winding.slots / winding.polePairs;
  const a = joint.fromLayer;
  const b = joint.toLayer;
  // The last of an odd number of layers has coils of its own and no partner.
  const alone = winding.layers % 2 === 1 ? winding.layers - 1 : -1;
  if (Math.max(a, b) === alone)
    return joint.side === 'F' && a === b && Math.abs(joint.span) === layout.span ? 'A' : 'E';
  if (a === b) return a === 0 || a === winding.layers - 1 ? 'E' : 'F';
  // Far side: layers a, c, e ... point up in slot number, b, d, f ... down. Connection side of a wave:
  // the other way round; of tooth coils: the same way.
  const pointsUp = (layer: number) => {
    const even = layer % 2 === 0;
    return joint.side === 'F' || layout.tooth ? even : !even;
  };
  const agrees = pointsUp(a) === joint.span > 0 && pointsUp(b) === joint.span < 0;
  if (!agrees) return 'F';
  const distance = Math.abs(a - b);
  if (distance >= 3) return 'D';
  const samePair = a >> 1 === b >> 1;
  if (joint.side === 'F') return samePair ? (Math.abs(joint.span) === layout.span ? 'A' : 'B') : 'C';
  if (layout.tooth) {
    if (samePair) return 'F';
    return Math.abs(joint.span) === layout.span ? 'A' : 'C';
  }
  if (samePair) return Math.abs(joint.span) === Math.round(period) - layout.span ? 'A' : 'B';
  return 'C';
}

/** What is made by a piece: what no bars can be bent to, and bends that reach over more than a pole pair. */
export function isPieceOf(winding: Winding, letter: JointClass, span: number): boolean {
  if (letter === 'D' || letter === 'E' || letter === 'F') return true;
  return letter !== 'A' && Math.abs(span) > winding.slots / winding.polePairs;
}

export interface RefereeCounts {
  readonly special: number;
  readonly jumpers: number;
  readonly shapes: number;
}

/** Special joints, jumpers and special shapes among the joints of some paths. */
export function refereeCounts(
  winding: Winding,
  layout: RefereeLayout,
  joints: readonly FlatJoint[],
): RefereeCounts {
  let special = 0;
  let jumpers = 0;
  const shapes = new Set<string>();
  for (const joint of joints) {
    const letter = classOf(winding, layout, joint);
    if (letter === 'A') continue;
    special++;
    if (isPieceOf(winding, letter, joint.span)) jumpers++;
    const up = joint.fromLayer <= joint.toLayer;
    const offset = joint.fromLayer === joint.toLayer ? Math.abs(joint.span) : up ? joint.span : -joint.span;
    shapes.add([joint.side, ...[joint.fromLayer, joint.toLayer].sort(), offset].join('/'));
  }
  return { special, jumpers, shapes: shapes.size };
}

/**
 * Everything that is wrong with a routing, as lines of text; empty when it is valid and balanced.
 * Rules: each bar once; spans lead where they say; + bars are passed away from the connection side;
 * one phase a path; equal voltages (floating phasors at several orders, and as integers); equal layers;
 * equal cells where a slot holds two phases or layers lean differently; leans kept unless a separate
 * piece; special spans where they may lie; phases alike up to their axes.
 */
export function refereeProblems(
  winding: Winding,
  layout: RefereeLayout,
  paths: readonly Path[],
  specials: 'joined' | 'crowns' | 'either' = 'joined',
): string[] {
  const problems: string[] = [];
  const { slots, layers, polePairs, table } = winding;
  const cell = (slot: number, layer: number) => table.cells[layer * slots + (slot - 1)] ?? 0;
  const uses = new Int32Array(slots * layers);

  paths.forEach((path, index) => {
    const name = `path ${index}`;
    if (path.bars.length === 0 || path.bars.length % 2 === 1) problems.push(`${name}: odd number of bars`);
    path.bars.forEach((bar, i) => {
      const inside = bar.slot >= 1 && bar.slot <= slots && bar.layer >= 0 && bar.layer < layers;
      if (!inside) problems.push(`${name}: no bar ${bar.slot}/${bar.layer}`);
      else uses[bar.layer * slots + bar.slot - 1]!++;
      const code = cell(bar.slot, bar.layer);
      if (Math.abs(code) !== path.phase + 1) problems.push(`${name}: bar ${i} is of another phase`);
      if (code > 0 !== (i % 2 === 0)) problems.push(`${name}: bar ${i} has the wrong sense`);
    });
    if (path.spans.length !== path.bars.length - 1) problems.push(`${name}: number of spans`);
    path.spans.forEach((span, i) => {
      const reached = (path.bars[i]!.slot + span - path.bars[i + 1]!.slot) % slots;
      if (reached !== 0 || span % 1 !== 0) problems.push(`${name}: span ${i} leads elsewhere`);
      if (Math.abs(span) >= slots) problems.push(`${name}: span ${i} too long`);
    });
  });
  uses.forEach((count, place) => {
    const expected = table.cells[place] === 0 ? 0 : 1;
    if (count !== expected) problems.push(`place ${place}: used ${count} times`);
  });

  const joints = flatten(paths);
  const firstOf = paths.map((_, path) => joints.findIndex((joint) => joint.path === path));
  joints.forEach((joint, index) => {
    const letter = classOf(winding, layout, joint);
    const position = index - firstOf[joint.path]!;
    const piece = paths[joint.path]!.pieces[position] === true;
    const jumper = isPieceOf(winding, letter, joint.span);
    if (jumper !== piece) problems.push(`joint ${index}: class ${letter}, separate piece ${piece}`);
    if (joint.side === 'F' && letter !== 'A' && (specials === 'joined' || jumper))
      problems.push(`joint ${index}: special on the far side`);
    if (joint.side === 'C' && specials === 'crowns' && !jumper && !bentWithRings(winding, layout, joint))
      problems.push(`joint ${index}: legs bent apart`);
  });

  const mixed = holdsTwoPhases(winding) || new Set(winding.lean.map(Math.abs)).size > 1;
  for (let phase = 0; phase < winding.phases.names.length; phase++) {
    const own = paths.filter((path) => path.phase === phase);
    const expectNumbers = own.map((path) => path.number).join();
    if (expectNumbers !== own.map((_, i) => i + 1).join()) problems.push(`phase ${phase}: numbers`);
    const fingerprints = own.map((path) => fingerprint(winding, path, mixed));
    if (new Set(fingerprints).size > 1) problems.push(`phase ${phase}: paths hold different bars`);
    for (const order of [1, 5, 7, 11, 13]) {
      const sums = own.map((path) => phasor(winding, path, order * polePairs));
      for (const sum of sums) {
        const apart = Math.hypot(sum.re - sums[0]!.re, sum.im - sums[0]!.im);
        if (apart > 1e-9 * path1Size(own)) problems.push(`phase ${phase}: voltages differ at order ${order}`);
      }
    }
  }
  return problems;
}

/** Whether both legs of a connection-side joint of a wave bend as all of their layer do. */
function bentWithRings(winding: Winding, { span, tooth }: RefereeLayout, joint: FlatJoint): boolean {
  if (tooth || winding.layers === 1) return true;
  const regular = Math.round(winding.slots / winding.polePairs) - span;
  return Math.abs(joint.span) === regular;
}

function path1Size(own: readonly Path[]): number {
  return Math.max(1, own[0]?.bars.length ?? 1);
}

function holdsTwoPhases(winding: Winding): boolean {
  for (let slot = 0; slot < winding.slots; slot++) {
    const phases = new Set<number>();
    for (let layer = 0; layer < winding.layers; layer++) {
      const code = winding.table.cells[layer * winding.slots + slot]!;
      if (code !== 0) phases.add(Math.abs(code));
    }
    if (phases.size > 1) return true;
  }
  return false;
}

/** What a path holds: angles (in fractions of a turn as integers) and layers, together or apart. */
function fingerprint(winding: Winding, path: Path, cells: boolean): string {
  const { slots, polePairs } = winding;
  const angles: string[] = [];
  const layers: number[] = [];
  path.bars.forEach((bar, i) => {
    const half = i % 2 === 0 ? 0 : slots;
    const angle = (2 * polePairs * bar.slot + half) % (2 * slots);
    angles.push(cells ? `${angle}@${bar.layer}` : String(angle));
    layers.push(bar.layer);
  });
  return `${angles.sort().join()} | ${layers.sort((a, b) => a - b).join()}`;
}

function phasor(winding: Winding, path: Path, order: number): { re: number; im: number } {
  let re = 0;
  let im = 0;
  path.bars.forEach((bar, i) => {
    const theta = (-2 * Math.PI * order * (bar.slot - 1)) / winding.slots;
    const x = (order * winding.lean[bar.layer]!) / 2;
    const skew = x === 0 ? 1 : Math.sin(x) / x;
    const sign = i % 2 === 0 ? 1 : -1;
    re += sign * skew * Math.cos(theta);
    im += sign * skew * Math.sin(theta);
  });
  return { re, im };
}
