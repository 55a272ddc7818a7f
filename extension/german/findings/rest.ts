import type * as Accepting from '../../../core/findings/acceptance/findingKinds.ts';
import type * as Limits from '../../../core/findings/limits.ts';
import type * as Operation from '../../../core/findings/operation/findingKinds.ts';
import type * as Registry from '../../../core/findings/registry.ts';
import type * as Rules from '../../../core/findings/rules.ts';
import type * as Sheet from '../../../core/findings/sheetRules.ts';
import { fixed, significant } from '../../../core/language/numbers.ts';
import { quoted } from '../../../core/language/text/quoted.ts';
import { visible } from '../../../core/language/text/visible.ts';
import { counted } from '../counts.ts';
import { reason } from '../phrases.ts';
import type { Wordings } from '../wordings.ts';

/** The accepting of warnings. */
export const acceptance: Wordings<typeof Accepting> = {
  acceptCodeUnknown: [
    'accept-code-unknown',
    ({ code, suggestion }) =>
      `Es gibt keinen Befund ${quoted(code)}${suggestion === undefined ? '; der Code einer Warnung steht in Klammern hinter ihr.' : `; ist ‚${suggestion}‘ gemeint?`}`,
  ],
  acceptOfError: [
    'accept-of-error',
    ({ code, always }) =>
      `${quoted(code)} ist ${always ? 'ein Fehler' : 'hier ein Fehler, keine Warnung'}: Er muss behoben werden und kann nicht hingenommen werden.`,
  ],
  acceptUnused: [
    'accept-unused',
    ({ code, info }) =>
      info
        ? `${quoted(code)} wird nur als Hinweis gemeldet: Es gibt nichts hinzunehmen.`
        : `Es gibt keine Warnung ${quoted(code)}, die hinzunehmen wäre.`,
  ],
  acceptRepeated: [
    'accept-repeated',
    ({ code }) => `${quoted(code)} wird ein zweites Mal hingenommen; es gilt die erste Begründung.`,
  ],
};

/** Limits; what they limit is named as in the text. */
export const limits: Wordings<typeof Limits> = {
  limitFailed: [
    'limit-failed',
    ({ what, actual, relation, limit, route }) =>
      `${what} ist ${aPhase(actual)}; gefordert ist ${relation === '<=' ? 'höchstens' : 'mindestens'} ${aPhase(limit)}.${route ? ` ${routed[route]}` : ''}`,
  ],
  limitNotComputable: [
    'limit-not-computable',
    ({ what, reason: why }) => `${what} lässt sich nicht berechnen: ${reason(why)}.`,
  ],
};

/** Why route took no other connection. */
const routed = {
  'none-met': 'route fand keine Verschaltung, die alle Grenzen einhält.',
  same: 'Jede Verschaltung hat dasselbe: Anordnung, Maße und Last entscheiden darüber.',
  little:
    'route wählt nicht danach: Verschaltungen unterscheiden sich darin wenig, Anordnung, Maße und Last entscheiden darüber.',
  more: 'route sucht Verschaltungen, die wenig davon haben, nicht solche, die viel haben.',
  point: 'route wählt nicht nach Punkten des Lastspiels.',
} as const;

const aPhase = (value: string) =>
  value.replace(/ a phase$/, ' je Strang').replace(/^no limit$/, 'unbegrenzt');

const revolutions = (speed: number) => `${significant(speed * 60, 4)} rpm`;

const saturated =
  (what: string, where: string) =>
  ({ density, most }: { readonly density: number; readonly most: number }) =>
    `Die Flussdichte ${what} hat ${where}den Scheitelwert ${significant(density, 4, most)} T; über ${significant(most, 3)} T sättigt das Eisen.`;

/** The operation. */
export const operation: Wordings<typeof Operation> = {
  voltageTooLow: [
    'voltage-too-low',
    ({ needed, voltage, current, speed, written, fit, torque, most }) => {
      const point = `Die Maschine braucht ${significant(needed, 4, voltage)} V zwischen ihren Leitern bei ${significant(current, 4)} A und ${revolutions(speed)}; sie hat ${significant(voltage, 4, needed)} V.`;
      if (fit !== null)
        return `${point} ${written ? 'Statt des geschriebenen passt' : 'Es passt'} current-angle ${significant(fit.angle, 3)} edeg und lässt ${significant(fit.torque, 4)} Nm von ${significant(torque, 4)} Nm.`;
      const rest =
        most === null
          ? 'und kein kleinerer Strom treibt bei dieser Drehzahl an'
          : `${significant(most.current, 4)} A würden passen, mit ${significant(most.torque, 4)} Nm von ${significant(torque, 4)} Nm`;
      return `${point} Dieser Strom passt bei keinem Winkel, ${rest}.`;
    },
  ],
  voltageBelowEmf: [
    'voltage-below-emf',
    ({ emf, voltage }) =>
      `Ohne Last stehen bei Bemessungsdrehzahl ${significant(emf, 4, voltage)} V zwischen den Leitern, mehr als die Spannung von ${significant(voltage, 4, emf)} V: Fällt die Feldschwächung aus, speist die Maschine ihre Versorgung.`,
  ],
  toothFieldHigh: ['tooth-field-high', saturated('der Zähne', 'an ihrer engsten Stelle ')],
  yokeFieldHigh: ['yoke-field-high', saturated('des Jochs', '')],
  pointOutOfReach: [
    'point-out-of-reach',
    ({ name, torque, speed, reachable, atAnotherAngle }) => {
      const told = `Die Spannung reicht nicht für den Punkt "${visible(name)}", ${significant(torque, 4)} Nm bei ${revolutions(speed)}`;
      if (atAnotherAngle) return `${told}, bei diesem Winkel des Stroms; bei einem anderen reicht sie.`;
      return reachable === null ? `${told}.` : `${told}: Dort lässt sie ${significant(reachable, 4)} Nm.`;
    },
  ],
  dutyPointRepeated: [
    'duty-point-repeated',
    ({ name }) => `Das Lastspiel hat schon einen Punkt "${visible(name)}".`,
  ],
  coreHeldAndHeated: [
    'core-held-and-heated',
    ({ word }) =>
      `Der Kern wird auf dieser Temperatur gehalten, so dass ${word} nichts bewirkt: Geben Sie entweder core-temperature an, oder core-heat, core-cooling und coolant-temperature.`,
  ],
  harmonicCannotFlow: [
    'harmonic-cannot-flow',
    ({ harmonic, ring }) =>
      `Die ${harmonic}. Oberschwingung ist in allen Strängen gleich, so dass die Versorgung sie nicht treiben kann; sie wird nicht gezählt${ring ? '; was im Ring kreist, folgt aus rotor-field' : ''}.`,
  ],
};

/** Notes and status of the sheets. */
export const sheet: Wordings<typeof Sheet> = {
  notesLong: [
    'sheet-notes-long',
    ({ printed, left }) =>
      `Die Übergabeblätter haben Platz für etwa zehn Blätter Hinweise und drucken ${counted(printed, 'Hinweis', 'Hinweise')}; dieser${left > 1 ? ` und ${left - 1} weitere dahinter stehen` : ' steht'} nicht darauf.`,
  ],
  releasedUnwritten: [
    'released-paths-unwritten',
    ({ hash }) =>
      `Der Status ist Released, und die Zweige (${hash}) sind gefunden, nicht ausgeschrieben: Eine andere Version kann andere finden.`,
  ],
};

/** Checks of the whole winding. */
export const rules: Wordings<typeof Rules> = {
  phasesUnbalanced: [
    'phases-unbalanced',
    ({ phase, percent, degrees }) =>
      percent === null
        ? 'Die Stränge haben keine gemeinsame Grundwelle: Die Wicklung erzeugt kein Feld dieser Polzahl.'
        : `Die Stränge sind nicht ausgeglichen: Strang ${phase} weicht um ${significant(percent, 4)} %${degrees === null ? ' ab (er hat keine Grundwelle)' : ` und ${fixed(degrees, 3)} elektrische Grad ab`}.`,
  ],
  phaseSidesUnequal: [
    'phase-sides-unequal',
    ({ phase, plus, minus }) =>
      `Strang ${phase} hat ${counted(plus, '+ Stab', '+ Stäbe')}, aber ${counted(minus, '- Stab', '- Stäbe')}.`,
  ],
  unbalancedPull: [
    'unbalanced-pull',
    ({ slots, poles, radialSymmetry }) =>
      radialSymmetry === 1
        ? `${slots} Nuten und ${poles} Pole haben keinen gemeinsamen Teiler: Ein einseitiger radialer Zug am Läufer ist möglich.`
        : 'Die Anordnung hat keine Drehsymmetrie: Ein einseitiger radialer Zug am Läufer ist möglich.',
  ],
  leanDiffersInSlot: [
    'lean-differs-in-slot',
    ({ runs }) => `Verschieden geneigte Schichten können keine gerade Nut teilen; schreiben Sie ${runs}.`,
  ],
  slotLayersMissing: ['slot-layers-missing', ({ layer }) => `Kein Block slot nennt Schicht ${layer}.`],
};

/** A fault of the program itself. */
export const registry: Wordings<typeof Registry> = {
  checkCrashed: [
    'check-crashed',
    ({ check, problem }) =>
      `Die Prüfung '${check}' ist gescheitert (${problem}). Die anderen Befunde gelten.`,
  ],
};
