import { joinedFacts } from '../../facts/connection.ts';
import { inEnglish, type Speech } from '../../figures/speech.ts';
import { finished } from '../../figures/steps.ts';
import { firstOf } from '../../language/lists.ts';
import { fixed } from '../../language/numbers.ts';
import { textWidth } from '../../picture/fontMetrics.ts';
import { baseLine, filledShape, group, text, textSize } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import { stationAt } from '../../space/curve.ts';
import { leadApart, type Piece } from '../../space/piece.ts';
import type { Space } from '../../space/space.ts';
import { frameFor, pagePicture, windingWords } from '../../views/chart/page.ts';
import type { Room } from '../../views/room.ts';
import { sceneSteps } from '../../views/space/scene.ts';
import { type Bar, barName, cellAt, type EndSide } from '../../winding/model.ts';
import { canOverlay } from '../overlayInput.ts';
import { align, turned } from '../places.ts';
import { type Reviewed, type Wound, wound } from '../reviewed.ts';

/** How the bars in space of two windings differ, or why that cannot be told. */
export type SpaceChange =
  | { readonly kind: 'unknown'; readonly why: string }
  | { readonly kind: 'same' }
  | { readonly kind: 'changed'; readonly picture: Picture };

/** Paper for each of the two drawings, mm, and between them. */
const paper = { across: 130, up: 150 } as const;
const between = 10;
const headRow = 6;
const mostNamed = 12;

interface SpaceChangeOptions {
  readonly coarse?: boolean;
  readonly speech?: Speech;
  readonly room?: Room | undefined;
}

/**
 * The bars of the old and of the new winding in space, side by side at one scale: what stands otherwise than in the
 * other is marked, all else is gray. With `coarse` in a third of the time. A page that says itself what the marks mean
 * gives the `room` it has: then the picture has no legend, and its notes stand beside it.
 */
export function spaceChange(
  old: Reviewed | null,
  now: Reviewed | null,
  { coarse = false, speech = inEnglish, room }: SpaceChangeOptions = {},
): SpaceChange {
  const sides = [standing(old, 'old', speech), standing(now, 'new', speech)] as const;
  const [before, after] = sides;
  if (typeof before === 'string') return { kind: 'unknown', why: before };
  if (typeof after === 'string') return { kind: 'unknown', why: after };
  const overlays = canOverlay(before.study.winding, after.study.winding);
  const rotation = overlays ? align(before.study, after.study).rotation : 0;
  const marks = [marksOf(before, rotation), marksOf(after, 0)] as const;
  const only = (own: Marks, other: Marks) =>
    new Map([...own].filter(([key, { form }]) => !overlays || other.get(key)?.form !== form));
  const [gone, come] = [only(marks[0], marks[1]), only(marks[1], marks[0])];
  if (gone.size + come.size === 0) return { kind: 'same' };
  return { kind: 'changed', picture: besideEachOther(before, after, gone, come, { coarse, speech, room }) };
}

interface Standing {
  readonly study: Wound;
  readonly space: Space;
}

function standing(
  reviewed: Reviewed | null,
  name: 'old' | 'new',
  { say, phrase }: Speech,
): Standing | string {
  const old = name === 'old';
  const study = wound(reviewed);
  if (!study)
    return old ? say('the old text yields no slot table') : say('the new text yields no slot table');
  const figure = study.facts.space()?.space;
  if (!figure)
    return old
      ? say('the bars of the old winding are not joined')
      : say('the bars of the new winding are not joined');
  if (!figure.known) {
    const needs = figure.needs.map(phrase).join(', ');
    return old
      ? say('the bars in space of the old winding need {0}', needs)
      : say('the bars in space of the new winding need {0}', needs);
  }
  return { study, space: figure.value };
}

/** What stands somewhere: how it is drawn (the id), what it is called, and its form as text. */
interface Mark {
  readonly id: string;
  readonly kind: 'bar' | 'lead' | 'connecting piece' | 'ring';
  readonly name: string;
  readonly form: string;
}

/** By what it is in the new winding's numbering. */
type Marks = ReadonlyMap<string, Mark>;

function marksOf({ study, space }: Standing, rotation: number): Marks {
  const { winding, facts } = study;
  const ends = joinedFacts(facts)?.joints().ends ?? [];
  const led = new Map(ends.map((end) => [`${end.side} ${barName(end.bar)}`, end]));
  const forms = new Map<readonly Piece<unknown>[], string>();
  const formOf = (pieces: readonly Piece<unknown>[]): string => {
    const form = forms.get(pieces) ?? pieces.map(pieceForm).join(' ');
    forms.set(pieces, form);
    return form;
  };
  const there = (bar: Bar) => barName(turned(bar, rotation, winding.slots));
  const marks = new Map<string, Mark>();
  for (const bar of space.bars) {
    if (!bar) continue;
    const { radius, section, lean } = space.layers[bar.bar.layer]!;
    const own = [cellAt(winding.table, bar.bar.slot, bar.bar.layer), radius, lean, section, space.stack];
    const parts = (['connection', 'far'] as const).map((side: EndSide) => {
      const { pieces } = bar[side];
      const end = led.get(`${side} ${barName(bar.bar)}`);
      const { own: below, lead: beyond } = leadApart(pieces);
      if (!end || beyond.length === 0) return formOf(pieces);
      const lead = { id: `lead-${end.number}`, kind: 'lead' as const, name: end.terminal };
      const form = beyond.map(pieceForm).join(' ');
      marks.set(`${side} ${end.terminal} ${there(bar.bar)}`, { ...lead, form });
      return below.map(pieceForm).join(' ');
    });
    const name = barName(bar.bar);
    marks.set(there(bar.bar), {
      id: `bar-${name}`,
      kind: 'bar',
      name,
      form: JSON.stringify([own, parts]),
    });
  }
  for (const { side, from, to, joint, section, pieces } of space.links) {
    const name = `${barName(from)}–${barName(to)}`;
    const form = JSON.stringify([section, formOf(pieces)]);
    marks.set(`${side} ${there(from)} ${there(to)}`, {
      id: `joint-${joint}`,
      kind: 'connecting piece',
      name,
      form,
    });
  }
  for (const { side, name, section, piece, bars } of space.rings) {
    // A ring begins at an angle of its own; its bars tell where it lies.
    const { path } = piece.curve;
    const form = JSON.stringify([
      section,
      fixed(piece.length, 7),
      fixed(path.radius, 7),
      stationAt(piece.curve, 0).point[2],
    ]);
    const id = `ring-${side}-${name.replace(' ', '-')}`;
    marks.set(`${side} ring ${name} ${bars.map(there).sort().join()}`, { id, kind: 'ring', name, form });
  }
  return marks;
}

/** A piece by its length and where it ends, to a micrometer. */
function pieceForm({ kind, curve, length }: Piece<unknown>): string {
  const at = [0.5, 1].flatMap((share) => stationAt(curve, share).point);
  return [kind, ...[length, ...at].map((value) => (Math.round(value * 1e6) + 0).toString())].join(',');
}

function besideEachOther(
  before: Standing,
  after: Standing,
  gone: Marks,
  come: Marks,
  { coarse, speech, room }: Required<SpaceChangeOptions>,
): Picture {
  const { say } = speech;
  const { margin, top } = frameFor(room);
  const drawnBy = ({ study, space }: Standing, scale?: number) =>
    finished(
      sceneSteps({ winding: study.winding, coarse }, space, joinedFacts(study.facts)!, { ...paper, scale }),
    );
  const scale = Math.min(drawnBy(before).scale, drawnBy(after).scale);
  const scenes = [drawnBy(before, scale), drawnBy(after, scale)] as const;
  const changes = [
    { name: 'removed', title: say('Old'), marks: gone, space: before.space },
    { name: 'added', title: say('New'), marks: come, space: after.space },
  ] as const;
  let left = margin;
  const items = changes.flatMap(({ name, title, marks }, index): readonly Primitive[] => {
    const scene = scenes[index]!;
    const prefix = index === 0 ? 'old-' : 'new-';
    const marked = new Set([...marks.values()].map(({ id }) => prefix + id));
    const { bodies, shade } = finished(scene.draw(left, top + headRow, { prefix }));
    const styled = bodies.map((item): Primitive => {
      if (item.kind !== 'path' || item.role === 'core' || item.role === 'core-edge') return item;
      const role = marked.has(item.id) ? (`${name}-section` as const) : 'kept-section';
      return { ...item, role, phase: undefined, path: undefined };
    });
    const head = text(`${prefix}head`, 'side-name', left, top + baseLine, title);
    left += scene.width + between;
    return [head, group(`${prefix}bodies`, 'frame', [...styled, ...shade])];
  });
  const height = Math.max(...scenes.map((scene) => scene.height));
  const bottom = top + headRow + height + 3;
  const legend = room === undefined ? legendAt(margin, bottom, speech) : [];
  const legendRight = Math.max(0, ...legend.map((item) => (item.kind === 'text' ? item.x + item.width : 0)));
  const words = changes.map(({ title, marks, space }) => `${title}: ${changeWords(marks, space, speech)}`);
  return pagePicture(
    {
      title: after.study.title,
      view: say('comparison of the bars in space'),
      facts: say('{0}, seen from above the connection side', windingWords(after.study.winding, speech)),
      description: `${say('The bars in space of the old winding and of the new one, side by side.')} ${words.join(' ')}`,
      speech,
      items: room === undefined ? [...items, group('legend', 'legend-name', legend)] : items,
      width: Math.max(left - between, legendRight) + margin,
      bottom: room === undefined ? bottom + 4 : bottom,
      notes: [
        ...words,
        say(
          'Orthographic, connection side up, both at one scale; hidden parts are left out. Bars without coating; the stack is drawn plain between the radii of the bars.',
        ),
        ...(before.space.bends.assumed || after.space.bends.assumed
          ? [say('Where a text gives no bend radius, it is assumed.')]
          : []),
      ],
    },
    room,
  );
}

/** How many things of each kind stand otherwise, and which. */
function changeWords(marks: Marks, space: Space, { say }: Speech): string {
  if (marks.size === 0) return say('nothing that the other does not have.');
  const parts = (['bar', 'lead', 'connecting piece', 'ring'] as const).flatMap((kind) => {
    const names = [...marks.values()].flatMap((mark) => (mark.kind === kind ? [mark.name] : []));
    if (names.length === 0) return [];
    const all = kind === 'bar' && names.length === space.bars.filter((bar) => bar !== null).length;
    if (all) return [say('all {0} bars', names.length)];
    return [`${countOf(kind, names.length, say)} (${firstOf([...new Set(names)], mostNamed)})`];
  });
  return say('marked are {0}.', parts.join(', '));
}

function countOf(kind: Mark['kind'], count: number, say: Speech['say']): string {
  const one = count === 1;
  switch (kind) {
    case 'bar':
      return one ? say('1 bar') : say('{0} bars', count);
    case 'lead':
      return one ? say('1 lead') : say('{0} leads', count);
    case 'connecting piece':
      return one ? say('1 connecting piece') : say('{0} connecting pieces', count);
    case 'ring':
      return one ? say('1 ring') : say('{0} rings', count);
  }
}

function legendAt(left: number, top: number, { say }: Speech): readonly Primitive[] {
  let x = left;
  return (
    [
      ['kept', say('stands in both')],
      ['removed', say('in the old winding only, or otherwise in the new one')],
      ['added', say('in the new winding only, or otherwise than in the old one')],
    ] as const
  ).flatMap(([name, words]) => {
    const box = [x, top + 0.4, x + 4, top + 0.4, x + 4, top + 2.6, x, top + 2.6];
    const items = [
      filledShape(`legend-${name}`, `${name}-section`, [box]),
      text(`legend-name-${name}`, 'legend-name', x + 5.2, top + baseLine, words),
    ];
    x += 5.2 + textWidth(words, textSize) + 6;
    return items;
  });
}
