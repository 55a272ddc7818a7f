import type { BendRadii } from '../space.ts';
import type { SpaceProblem } from '../spaceProblems.ts';
import type { EndRooms } from './barEnd.ts';
import { type BendInput, bendsFit, largestThatFits, radiiWith, roomsOf } from './bends.ts';
import type { EndForm } from './endForms.ts';

const rounding = 1e-9;
// Values that would fit are told in steps of this, m.
const step = 1e-5;

/** What does not fit of the bar ends: of each kind on each side the worst, with the values that free it. */
export function bendProblems(
  input: BendInput,
  forms: readonly EndForm[],
  radii: BendRadii,
): readonly SpaceProblem[] {
  const rooms = new Map(forms.map((form) => [form, roomsOf(input, form, radii)]));
  const lacks: readonly [EndForm, EndRooms][] = [...rooms].filter(
    ([, { straight, leg, joint }]) => Math.min(straight, leg, joint) < -rounding,
  );
  if (lacks.length === 0) return [];
  return (['connection', 'far'] as const).flatMap((side) => {
    const own = lacks.filter(([form]) => form.side === side);
    return [
      ...worst(own, ({ straight }) => straight, straightProblem),
      ...worst(own, ({ joint }) => joint, jointProblem),
      ...worst(own, ({ leg }) => leg, legProblem),
    ];
  });

  /** The problem of the end that lacks most of a part. */
  function worst(
    own: readonly [EndForm, EndRooms][],
    part: (rooms: EndRooms) => number,
    problem: (form: EndForm, rooms: EndRooms) => SpaceProblem,
  ): readonly SpaceProblem[] {
    const short = own.filter(([, rooms]) => part(rooms) < -rounding);
    if (short.length === 0) return [];
    const [form, rooms] = short.reduce((a, b) => (part(b[1]) < part(a[1]) ? b : a));
    return [problem(form, rooms)];
  }

  function straightProblem({ side, layer }: EndForm, { straight }: EndRooms): SpaceProblem {
    const { lean, radius } = input.sizes.layers[layer]!;
    // What is missing along the bar, as a height.
    const lacking = (-straight * input.sizes.stack) / Math.hypot(input.sizes.stack, lean * radius);
    const endStraight = input.sizes.endStraight + lacking;
    return { kind: 'bend-in-slot', side, layer, lacking, endStraight, bendRadius: radiusThatFits() };
  }

  function jointProblem({ side, layer }: EndForm, { joint }: EndRooms): SpaceProblem {
    const jointStraight = input.sizes.jointStraight - joint;
    return {
      kind: 'bend-in-joint',
      side,
      layer,
      lacking: -joint,
      jointStraight,
      bendRadius: radiusThatFits(),
    };
  }

  function legProblem(form: EndForm, { leg, step: taken }: EndRooms): SpaceProblem {
    const { side, layer } = form;
    const lacking = -leg;
    if (taken > lacking)
      return { kind: 'step-does-not-fit', side, layer, lacking, flatRadius: flatThatFits() };
    return { kind: 'leg-too-short', side, layer, lacking, bendRadius: radiusThatFits() };
  }

  /** The flat radius that lets every end fit which some flat radius does. */
  function flatThatFits(): number | null {
    const fits = (flat: number) => (form: EndForm) => bendsFit(input, form, { ...radii, flat });
    const stepped = forms.filter(fits(0));
    return largestThatFits(radii.flat, step, (flat) => stepped.every(fits(flat)));
  }

  function radiusThatFits(): number | null {
    if (radii.assumed) return null;
    return largestThatFits(radii.edge, step, (edge) =>
      forms.every((form) => bendsFit(input, form, radiiWith(input, edge))),
    );
  }
}
