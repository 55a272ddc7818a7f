import { fixedText } from '../../picture/numberText.ts';
import type { BarEnd, ConnectingPiece, EndRing, Space } from '../../space/space.ts';
import { barName, type EndSide } from '../../winding/model.ts';
import { bendRadiiText, lengthRange, millimeterText, plainMillimeters } from '../numbers.ts';
import type { SheetTable } from '../page/table.ts';
import { underRows } from '../page/text.ts';
import { degreesText } from './degrees.ts';

const none = '\u2013';
const sides = ['connection', 'far'] as const;

/** What the ends of a side have in common: heights above the stack, radii of bends. */
export function endSizesTable(space: Space, leadLength: number | null, section: string): SheetTable {
  const { bends, overhang, endStraight } = space;
  const both = (of: (side: EndSide) => string) => sides.map(of);
  const free = space.ends.filter(({ use }) => use === 'lead' || use === 'star');
  const freeEnds = (side: EndSide) => free.filter((end) => end.side === side);
  const stars = free.some(({ use }) => use === 'star') ? ' and star ends' : '';
  return {
    id: 'end-sizes',
    section,
    heading: 'End winding',
    remarks: ['mm; heights are above the end of the stack, to the metal; the overhang has its coating.'],
    columns: [{ name: '' }, { name: 'connection side', align: 'end' }, { name: 'far side', align: 'end' }],
    rows: [
      ['First bend: its sharp corner', ...both(() => plainMillimeters(endStraight))],
      ['First bend: its arc begins', ...both((side) => arcBeginsWords(space, side))],
      ['Inner bend radius', ...both(() => bendRadiiText(bends, ''))],
      ['Joint plane: ends of the joined bars', ...both((side) => planeWords(space, side))],
      ['Joints: straight above their arcs', ...both((side) => jointWords(space, side))],
      ['Apex of the crowns, middle of the bar', ...both((side) => topsWords(crownsOf(space, side)))],
      ...(leadLength === null
        ? [[`Straight leads${stars}`, ...both((side) => (freeEnds(side).length > 0 ? 'not given' : none))]]
        : []),
      [`Leads${stars}: where they stop`, ...both((side) => topsWords(freeEnds(side)))],
      ['Overhang', ...both((side) => millimeterText(overhang[side]))],
    ].map((row) => row as readonly string[]),
  };
}

function crownsOf({ ends }: Space, side: EndSide): readonly BarEnd[] {
  return ends.filter((end) => end.side === side && end.use === 'crown');
}

/** Where bars leave the straight that they come out of the stack in; of bars that are not bent there nothing. */
function arcBeginsWords({ ends, slotParts, stack }: Space, side: EndSide): string {
  return rangeWords(
    ends.flatMap((end) => {
      if (end.side !== side || end.pieces[1]?.kind !== 'bend') return [];
      // It leans on as in its slot.
      return end.pieces[0]!.length * (stack / slotParts[end.layer]!.length);
    }),
  );
}

/** What the last bend leaves straight of the ends that are joined, to a bar or a piece. */
function jointWords({ ends }: Space, side: EndSide): string {
  const joined = ends.filter(({ use, side: own }) => own === side && (use === 'joint' || use === 'piece'));
  return rangeWords(
    joined.flatMap(({ pieces }) => pieces.filter(({ kind }) => kind === 'joint').map(({ length }) => length)),
  );
}

function topsWords(ends: readonly BarEnd[]): string {
  return rangeWords(ends.map(({ top }) => top));
}

function rangeWords(lengths: readonly number[]): string {
  if (lengths.length === 0) return none;
  return lengthRange({ shortest: Math.min(...lengths), longest: Math.max(...lengths) });
}

function planeWords({ jointPlanes }: Space, side: EndSide): string {
  const plane = jointPlanes[side];
  return plane === null ? none : lengthRange({ shortest: plane.lowest, longest: plane.highest });
}

/** Height above the stack of the underside of a level part, metal, m. */
export function undersideOf({ height, section }: ConnectingPiece | EndRing): number {
  return height - section.height / 2;
}

/** How far something stands above the highest joint of its side; a dash where the side has no joints. */
export function abovePlane({ jointPlanes }: Space, side: EndSide, height: number): string {
  const plane = jointPlanes[side];
  return plane === null ? none : millimeterText(height - plane.highest);
}

/** Width \u00d7 height of a section without its coating. */
export function sizeWords({ width, height }: { readonly width: number; readonly height: number }): string {
  return `${plainMillimeters(width)} \u00d7 ${plainMillimeters(height)}`;
}

const barsWidth = 70;

/** The rings of star points and terminals, from the stack outwards. */
export function ringTable(space: Space, section: string): SheetTable {
  return {
    id: 'rings',
    section,
    heading: 'Star and terminal rings',
    remarks: [
      'Section: width along the radius \u00d7 height along the axis, without coating. Heights: underside of the metal.',
      'From: angle round the axis from the middle of slot 1 at mid-stack, towards higher slots.',
    ],
    columns: [
      { name: 'ring' },
      { name: 'side' },
      { name: 'level', align: 'end' },
      { name: 'section mm', align: 'end' },
      { name: 'mean radius mm', align: 'end' },
      { name: 'above stack mm', align: 'end' },
      { name: 'above joints mm', align: 'end' },
      { name: 'from \u00b0', align: 'end' },
      { name: 'over \u00b0', align: 'end' },
      { name: 'length mm', align: 'end' },
      { name: 'joins the ends of bars', most: barsWidth },
    ],
    rows: space.rings.flatMap((ring) => underRows(ringRow(space, ring), barsWidth)),
  };
}

function ringRow(space: Space, ring: EndRing): readonly string[] {
  const { path, profile } = ring.piece.curve;
  const radius = path.radius;
  const extent = 'extent' in profile ? profile.extent / radius : 0;
  const underside = undersideOf(ring);
  return [
    ring.name,
    ring.side,
    String(ring.level),
    sizeWords(ring.section),
    millimeterText(radius),
    millimeterText(underside),
    abovePlane(space, ring.side, underside),
    degreesText(path.angle),
    fixedText((extent * 180) / Math.PI, 1),
    millimeterText(ring.piece.length),
    ring.bars.map(barName).join(' '),
  ];
}
