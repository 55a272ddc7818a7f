import type * as Copper from '../../../core/findings/copper/findingKinds.ts';
import { layerLetter } from '../../../core/language/layerLetters.ts';
import { percent, significant } from '../../../core/language/numbers.ts';
import { listed, ofLayers, millimeters as told } from '../counts.ts';
import { place, reason, thing } from '../phrases.ts';
import type { Wordings } from '../wordings.ts';

/** Copper and insulation. */
export const copper: Wordings<typeof Copper> = {
  barsDoNotFit: [
    'bars-do-not-fit',
    ({ direction, layers, needed, available, lacking }) =>
      `Die Stäbe ${ofLayers(layers)} passen nicht: Sie brauchen ${told(needed, available)} ${direction === 'width' ? 'Nutbreite' : 'Nuttiefe'}, vorhanden sind ${told(available, needed)}; ${told(lacking)} fehlen.`,
  ],
  cornerTooLarge: [
    'corner-too-large',
    ({ layer, corner, most }) =>
      `Ein Eckenradius von ${told(corner, most)} ist für die Stäbe der Schicht ${layerLetter(layer)} zu groß: höchstens ${told(most, corner)}.`,
  ],
  fillTooHigh: [
    'fill-too-high',
    ({ layers, fill, most }) =>
      `Blanke Leiter füllen ${percent(fill, 3, most)} der Nut ${ofLayers(layers)}; über ${percent(most, 3)} lassen sich Stäbe kaum einführen.`,
  ],
  bendsCannotPass: [
    'bends-cannot-pass',
    ({ layer, needed, pitch, clearanceThatFits }) =>
      `Die gebogenen Enden der Schicht ${layerLetter(layer)} kommen nicht aneinander vorbei: Breite mit Lack und Abstand sind ${told(needed, pitch)}, die Nutteilung ist ${told(pitch, needed)}. ${clearanceThatFits === null ? 'Kein Abstand passt: Die Stäbe sind zu breit.' : `Ein Abstand unter ${told(clearanceThatFits)} passt.`}`,
  ],
  bendsNearlyTouch: [
    'bends-steep',
    ({ layer, sine }) =>
      `Die gebogenen Enden der Schicht ${layerLetter(layer)} sind steil: Breite mit Lack und Abstand nehmen ${percent(sine, 3)} der Nutteilung ein.`,
  ],
  slotWiderThanPitch: [
    'slot-wider-than-pitch',
    ({ layers, width, pitch }) =>
      `Die Nuten ${ofLayers(layers)} sind ${told(width, pitch)} breit, die Nutteilung aber nur ${told(pitch, width)}.`,
  ],
  diametersDisagree: [
    'diameters-disagree',
    ({ bore, outside, outsideFromSlots }) =>
      `Eine Bohrung von ${told(bore)} und die Nuten ergeben einen Außendurchmesser von ${told(outsideFromSlots, outside)}, nicht ${told(outside, outsideFromSlots)}.`,
  ],
  bareEndTooLong: [
    'bare-end-too-long',
    ({ bare, joint }) =>
      `Blanke Enden von ${told(bare, joint)} reichen über das gerade Stück für die Verbindung, ${told(joint, bare)} lang, hinaus in die Biegung.`,
  ],
  noSteadyTemperature: [
    'no-steady-temperature',
    () =>
      'Die Stäbe finden keine Beharrungstemperatur: Die Verluste wachsen mit der Temperatur schneller, als Wärme abfließen kann.',
  ],
  insulationStressed: [
    'insulation-stressed',
    ({ what, voltage, limit, basis, surge, common }) =>
      `Zwischen ${place(what)} stehen bis zu ${significant(voltage, 4, limit)} V effektiv (Strangspannung ${significant(basis.voltage, 4)} V aus: ${thing(basis.from)}${surge === null ? '' : `, Stoßspannungen mit ${significant(surge, 4)} eingerechnet`}${common === null ? '' : `, ${thing(common)} auf einem Potential angenommen`}); die Isolation ist für ${significant(limit, 4, voltage)} V.`,
  ],
  insulationNotChecked: [
    'insulation-not-checked',
    ({ needs, reason: why }) =>
      `Die Isolation wird gegen diese Spannung nicht geprüft: ${why === null ? `gebraucht wird ${listed(needs.map(reason))}` : reason(why)}.`,
  ],
  setsAtOnePotential: [
    'sets-at-one-potential',
    ({ common, share, bars }) =>
      `Spannungen zwischen Stäben der beiden Sätze (bis zu ${percent(share, 3)} der Strangspannung, ${place(bars)}) gelten für ${thing(common)} auf einem Potential; wo diese auseinanderdriften können, kommt die Drift dazu.`,
  ],
  barsHotterThanWinding: [
    'bars-hotter-than-winding',
    ({ mean, hotSpot, assumed }) =>
      `Der heißeste Stab stellt sich im Mittel auf ${significant(mean, 4, assumed)} degC ein (${significant(hotSpot, 4)} degC an der heißesten Stelle), über der Wicklungstemperatur von ${significant(assumed, 4, mean)} degC: Die Verluste sind zu niedrig angesetzt.`,
  ],
  gapFieldHigh: [
    'gap-field-high',
    ({ density, most }) =>
      `Dieser Fluss verlangt am Luftspalt einen Scheitelwert von ${significant(density, 4, most)} T (Grundwelle); über ${significant(most, 3)} T sättigen in der Regel die Zähne.`,
  ],
  openingTooWide: [
    'opening-too-wide',
    ({ opening, most, what }) =>
      `Ein Nutschlitz von ${told(opening, most)} ist breiter als die ${thing(what)} von ${told(most, opening)}.`,
  ],
  currentDensityHigh: [
    'current-density-high',
    ({ density, most }) =>
      `Die Stäbe führen ${significant(density / 1e6, 3, most / 1e6)} A/mm2; über ${significant(most / 1e6, 3)} A/mm2 lassen sie sich in der Regel nur kurze Zeit kühlen.`,
  ],
  deltaCirculation: [
    'delta-circulation',
    ({ harmonic, voltage, current }) =>
      `Die EMK der ${harmonic}. Oberschwingung, ${significant(voltage, 3)} V je Strang, treibt einen Strom im Dreieck${current === null ? '' : `: höchstens ${significant(current, 3)} A, durch den Widerstand allein`}. Er ist nicht in den Verlusten.`,
  ],
  slotsBeyondAxis: [
    'slots-beyond-axis',
    ({ depth, radius }) =>
      `Die Nuten reichen über die Achse hinaus: Sie sind ${told(depth, radius)} tief, der Luftspalt liegt auf einem Radius von ${told(radius, depth)}.`,
  ],
};
