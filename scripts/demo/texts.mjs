// The words of the demonstration, for readers who have never seen a winding file.

/** The terms that the page uses, in the order in which a newcomer needs them. */
export const glossary = [
  ['stator', 'the part of the machine that stands still, a ring with slots all round'],
  ['slot', 'a groove in the stator; they are numbered round the ring'],
  [
    'bar',
    'a copper bar in a slot. Several lie over each other, one in each layer; bar 7b lies in slot 7, layer b',
  ],
  ['phase', 'one of the circuits, mostly three of them: U, V and W. Together their currents turn the field'],
  ['pole', 'one half-wave of the magnetic field round the ring; two make a pole pair'],
  ['span', 'how many slots lie from one bar of a coil to the other'],
  ['joint', 'where the ends of two bars are connected, above or below the slots'],
  [
    'path',
    'the bars of a phase that follow each other joint by joint; a phase may have several in parallel, which must be alike',
  ],
  ['winding factor', 'how much of the voltages of all bars of a phase adds up; 1 would be all of it'],
  ['harmonic', 'a wave of the field with more poles than wanted; it costs loss and makes noise'],
];

/** What the blocks of a winding file say. */
export const blocks = {
  machine: 'slots, poles and phases, and the sizes, speed and current where they are known',
  slot: 'the shape of the slot',
  bar: 'the shape of the copper bar and the room it needs at its ends',
  layout: 'how the phases come to lie in the slots: so many layers, coils of such a span',
  connect:
    'how the bars are joined; "route paths 2" has Slotwright find two equal paths for each phase by itself',
  require: 'limits of the designer. They are checked at every keystroke, like the spelling',
};

/** What the quantities of limits mean. */
export const quantities = {
  'winding-factor': 'how much of the bars’ voltages adds up in that wave',
  'wave-relative': 'size of an unwanted wave against the working wave',
  'differential-leakage': 'energy of all unwanted waves of the field against that of the working wave',
  'path-voltage-difference': 'parallel paths must agree, or a current runs round between them',
  jumpers: 'separate connecting pieces that each phase needs',
  'slot-fill': 'how much of the slot is copper',
  'current-density': 'current through each square millimeter of copper; more means hotter',
  'ac-ratio': 'resistance to the alternating current against that to direct current',
  'hot-spot-temperature': 'the hottest place of a bar, as an estimate',
  torque: 'what the machine turns with',
  'line-voltage': 'voltage between two terminals',
};

/** What each view shows and what to look at. */
export const views = {
  layout: {
    name: 'Developed layout',
    caption:
      'The ring of slots cut open and laid flat. Every line in the middle is a bar with the direction of its current, every slanted line above or below is a joint at its true span. Look for U1, V1 and W1, where the cables go, and for N, where the phases meet; follow one color, which has its own line pattern too.',
  },
  section: {
    name: 'Section of the slots',
    caption:
      'The bars as they lie in their slots, to scale: phase, direction of the current and path are written in each.',
  },
  phasors: {
    name: 'Phasors',
    caption:
      'The voltage of every bar as an arrow. Below, the bars of each path are chained one behind the other: paths of one phase must end at the same place, and these do.',
  },
  field: {
    name: 'Field',
    caption:
      'The steps at the top are the magnetic field that the bars make round the ring, the dashed line is the wave that was wanted. Below, the difference is taken apart into harmonics.',
  },
  copper: {
    name: 'Copper',
    caption:
      'What the alternating current costs in each layer and at each frequency, and how warm the hottest bar becomes along its length.',
  },
  operation: {
    name: 'Operation',
    caption:
      'How much torque and power the machine has at each speed, and which voltage that takes; the point it is rated for is marked.',
  },
  space: {
    name: 'Bars in space',
    caption:
      'The bars as they stand in the machine, seen from above the side where the cables leave it. Every bend, crown and joint is where lengths, sheets and the files for CAD programs have it.',
  },
};
