/** Places on -1/2..1/2 and their weights, which add up to 1, in turn. */
export type GaussRule = Float64Array;

// Abramowitz and Stegun, table 25.4.
const one: GaussRule = Float64Array.of(0, 1);
const two = symmetric(0.28867513459481287, 0.5);
const three = Float64Array.of(0, 4 / 9, ...symmetric(0.3872983346207417, 5 / 18));
const four = symmetric(0.16999052179242813, 0.326072577431273, 0.4305681557970263, 0.173927422568727);
export const fourteen = symmetric(
  0.0540274743536718,
  0.107631926731579,
  0.159556184463945,
  0.10259923186064777,
  0.2576243181790099,
  0.09276919873896891,
  0.3436464520815627,
  0.0786015835790967,
  0.4136006497948424,
  0.06075928534395159,
  0.464217417563656,
  0.0400790435798801,
  0.4931419034910834,
  0.01755973016587593,
);

/** Rules of one, two, three and four places. */
export const ruleOf: readonly [GaussRule, GaussRule, GaussRule, GaussRule] = [one, two, three, four];

/** The rule of places beside the middle and their weights, in turn, and the same on the other side. */
function symmetric(...half: readonly number[]): GaussRule {
  return Float64Array.from(
    half.flatMap((place, at) => (at % 2 === 0 ? [-place, half[at + 1]!, place, half[at + 1]!] : [])),
  );
}
