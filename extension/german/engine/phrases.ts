import type { FigurePath } from '../../../core/figures/register.ts';
import { barPart, reason } from '../phrases.ts';

// Words that the engine puts together: parts of bars, needs and reasons, assumptions, headings of tables. Words of the
// language itself, `bar bend-radius`, stay as they are written in a text.

/** Models that stand below charts. */
export const models: Readonly<Partial<Record<FigurePath, string>>> = {
  'copper.acRatio.layers':
    'k = phi(xi) + psi(xi) (|Iu|^2 + Re(Iu conj I))/|I|^2 aus den wirklichen Zeigern, Mittel über die Nuten',
  'copper.heat.rise':
    "L die Länge des Stabs im Blechpaket: p' L^2/(8 k A), oder (p'/G)(1 - 1/cosh(sqrt(G/(k A)) L/2)) mit seitlicher Kühlung; mit end-conductance k A T'' = G (T - Ts) - p' längs jedes Zweigs",
  'copper.cage.stiffness':
    'Summe von E A (r^2 sin(Neigung))^2/Lc^3/(1 + (4/45) A d^2/I) längs der Stäbe, Lc ihre Sehne, d ihre Ausbiegung zwischen radialen Stützen, und von 12 E I r^2/l^3 + G J/l jedes Stabs',
  'operation.terminalVoltage':
    'Vq = E + R Iq + w Ld Id, Vd = R Id - w Lq Iq; R mit seinem Wechselstromfaktor; im Stern mal 2 sin(pi/m), bei Dreieck und offen die Strangspannung; Grundschwingung',
  'operation.baseSpeed':
    'höchste Drehzahl, bei der die Spannung für den Bemessungsstrom bei seinem Winkel reicht',
  'operation.topSpeed':
    'der ganze Bemessungsstrom gegen das Feld, kein Drehmoment mehr; ohne Grenze, wo der charakteristische Strom nicht darüber liegt; ohne Widerstand w = V/(psi - L I)',
};

/** Headings of tables, and the words of cells that hold one of few. */
const headings: Readonly<Record<string, string>> = {
  slot: 'Nut',
  slots: 'Nuten',
  position: 'Platz',
  layer: 'Schicht',
  phase: 'Strang',
  sense: 'Richtung',
  path: 'Zweig',
  'place in path': 'Platz im Zweig',
  shape: 'Form',
  length: 'Länge',
  'EMF angle': 'EMK-Winkel',
  number: 'Nummer',
  side: 'Seite',
  from: 'von',
  to: 'nach',
  span: 'Schritt',
  'true span': 'wahrer Schritt',
  kind: 'Art',
  'separate piece': 'eigenes Stück',
  terminal: 'Klemme',
  end: 'Ende',
  bar: 'Stab',
  'bent bar': 'gebogener Stab',
  'joined with': 'verbunden mit',
  order: 'Ordnung',
  harmonic: 'Oberwelle',
  distribution: 'Zonung',
  pitch: 'Sehnung',
  skew: 'Schrägung',
  winding: 'Wicklung',
  'coil pitch': 'Spulensehnung',
  quantity: 'Anzahl',
  step: 'Schritt',
  operation: 'Vorgang',
  turn: 'Drehung',
  angle: 'Winkel',
  radius: 'Radius',
  'step angle': 'Versatzwinkel',
  'step radius': 'Versatzradius',
  x: 'x',
  y: 'y',
  z: 'z',
  'roll radius': 'Rollradius',
  ends: 'Enden',
  twist: 'Verdrehung',
  stroke: 'Hub',
  point: 'Punkt',
  time: 'Zeit',
  speed: 'Drehzahl',
  torque: 'Drehmoment',
  power: 'Leistung',
  current: 'Strom',
  'line voltage': 'Leiterspannung',
  'power factor': 'Leistungsfaktor',
  'copper loss': 'Kupferverlust',
  'hot spot': 'heißeste Stelle',
  rise: 'Anstieg',
  frequency: 'Frequenz',
  'DC loss': 'Gleichstromverlust',
  'eddy loss': 'Wirbelstromverlust',
  'harmonic loss': 'Oberschwingungsverlust',
  'field loss': 'Feldverlust',
};

const cells: Readonly<Record<string, string>> = {
  hairpin: 'Hairpin',
  'single-bar': 'Einzelstab',
  straight: 'gerader Stab',
  connection: 'Schaltseite',
  far: 'Gegenseite',
  regular: 'regelmäßig',
  'other-span': 'anderer Schritt',
  'layer-step': 'Schichtwechsel',
  jumper: 'Verbindungsstück',
  lead: 'Zuleitung',
  star: 'Stern',
  start: 'Anfang',
  finish: 'Ende',
  yes: 'ja',
  no: 'nein',
  cut: 'Zuschnitt',
  feed: 'Vorschub',
  bend: 'Biegung',
  twist: 'Verdrehung',
  joint: 'Verbindung',
  piece: 'Stück',
  tightened: 'verschärft',
  loosened: 'gelockert',
  dropped: 'gestrichen',
  new: 'neu',
};

/** A cell that holds one of few words, or several of them. */
const cell = (english: string) =>
  english
    .split(' ')
    .map((word) => cells[word] ?? word)
    .join(', ');

const isCell = (english: string) => english.split(' ').every((word) => cells[word] !== undefined);

type Turn = readonly [english: RegExp, german: string];

const turns: readonly Turn[] = [
  [/ \(default\)$/, ' (Vorgabe)'],
  [/ \(0 mm where there are no magnets\)$/, ' (0 mm, wo keine Magnete sind)'],
  [/: all 0 deg/, ': alle 0 deg'],
  [/: free /, ': frei '],
  [/ \(one bar width; assumed\)$/, ' (eine Stabbreite; angenommen)'],
  [/, as edgewise/, ', wie hochkant'],
  [/: joined bars stand as their layers do/, ': verbundene Stäbe stehen wie ihre Schichten'],
  [
    /: leads and star ends stop at the height of a joint \(not given\)$/,
    ': Zuleitungen und Sternenden hören in der Höhe einer Verbindung auf (nicht angegeben)',
  ],
  [
    /^connecting pieces stand on the tips of their bars$/,
    'Verbindungsstücke stehen auf den Spitzen ihrer Stäbe',
  ],
  [/: the bars' /, ': wie die Stäbe '],
  [/, the end-clearance/, ', das end-clearance'],
  [
    /^winding loss, current density and heat: .*$/,
    'Wicklungsverlust, Stromdichte und Wärme: der eigene Strom jedes Zweigs aus seiner EMK, seinem Gleichstromwiderstand bei Wicklungstemperatur, Nutstreuung, Streuung der Wickelköpfe und Luftspaltfeld, der Strangstrom in Phase mit der EMK; der größere Wert von Motor und Generator',
  ],
  [/^end windings carry their DC loss only$/, 'Wickelköpfe tragen nur ihren Gleichstromverlust'],
  [
    /^no eddies from the rotor.s field in the bars: slot bar-field is not given$/,
    'keine Wirbelströme des Läuferfelds in den Stäben: slot bar-field ist nicht angegeben',
  ],
  [
    /^AC ratios and slot leakage are for equal path currents, balanced and sinusoidal$/,
    'Wechselstromfaktoren und Nutstreuung gelten für gleiche Zweigströme, symmetrisch und sinusförmig',
  ],
  [
    /^synchronous inductance: no rotor saliency and no saturation, so that both axes have the same$/,
    'synchrone Induktivität: keine Schenkligkeit des Läufers und keine Sättigung, also in beiden Achsen gleich',
  ],
  [
    /^two gaps: (\S+ %) of the slot current acts on the inner gap, the rest on the outer, by effective gap\/radius$/,
    'zwei Luftspalte: $1 des Nutstroms wirken auf den inneren, der Rest auf den äußeren, nach wirksamem Luftspalt/Radius',
  ],
  [/^two gaps: one machine (air-gap|magnet-height) for both$/, 'zwei Luftspalte: ein machine $1 für beide'],
  [
    /^two gaps: facing poles of the rotors are opposite, the flux passes straight through the stator$/,
    'zwei Luftspalte: gegenüberliegende Pole der Läufer sind ungleichnamig, der Fluss geht gerade durch den Ständer',
  ],
  [
    /^harmonics that circulate in the ring of phases are not counted: .*$/,
    'Oberschwingungen, die im Ring der Stränge kreisen, sind nicht gezählt: Dafür fehlen machine rotor-field und Luftspalt und Nuten, aus denen die Induktivität des Rings folgt',
  ],
  [
    /^slot rows of leaning layers: .*$/,
    'Nutreihen geneigter Schichten: jede Reihe für sich, gegenseitige Nutstreuung zwischen Reihen als null angenommen, ihre Nachbarn sind nicht fest',
  ],
  [
    /^heat along the bar: lumped one-dimensional estimate.*$/,
    'Wärme längs des Stabs: eindimensionale Schätzung des ungünstigsten Stabs im Blechpaket, keine thermische Auslegung; seine Enden haben am Paketrand die Temperatur end-temperature, der Wickelkopf bringt also keine Erwärmung, und seine Länge ist die im Blechpaket',
  ],
  [
    /^heat along the bars: one-dimensional conduction.*$/,
    'Wärme längs der Stäbe: eindimensionale Leitung längs jedes Zweigs von Ende zu Ende, Nutteile zum Kern gekühlt und Wickelköpfe zu end-temperature, keine Wärme längs Zuleitungen und Verbindungsstücken; eine Schätzung, keine thermische Auslegung',
  ],
  [
    /^no heat from bars to the core: slot side-conductance is not given$/,
    'keine Wärme von den Stäben zum Kern: slot side-conductance ist nicht angegeben',
  ],
  [
    /^crossed-bar cage: bars clamped in rings.*$/,
    'Käfig aus gekreuzten Stäben: Stäbe in starren, axial gehaltenen Ringen eingespannt; Nachgiebigkeit der Ringe, Isolierung, Verbindungen, Ermüdung, Knicken und einseitiger Zug sind weggelassen',
  ],
  [
    /^crossed-bar cage: crossing layers do not touch, so the bars are free between the rings$/,
    'Käfig aus gekreuzten Stäben: sich kreuzende Schichten berühren sich nicht, die Stäbe sind zwischen den Ringen also frei',
  ],
  [
    /^crossed-bar cage: the families of bars do not balance axially.*$/,
    'Käfig aus gekreuzten Stäben: die Scharen von Stäben gleichen sich axial nicht aus, das Drehmoment zieht also auch längs der Achse an den Ringen',
  ],
  [
    /^harmonics of the current: the paths of a phase carry equal shares.*$/,
    'Oberschwingungen des Stroms: die Zweige eines Strangs tragen gleiche Anteile; Welligkeit im Mitsystem; im Stillstand nur die Welligkeit',
  ],
  [
    /^eddies from the rotor.s field in the bars: within the stack only, fundamental$/,
    'Wirbelströme des Läuferfelds in den Stäben: nur im Blechpaket, Grundwelle',
  ],
  [
    /^core: one node of one temperature.*$/,
    'Kern: ein Knoten einer Temperatur, nur von den Stäben geheizt, weil Eisenverluste und Wärme von Läufer und Luftspalt nicht berechnet werden',
  ],
  [/^rings count in the mass, not in the resistance$/, 'Ringe zählen zur Masse, nicht zum Widerstand'],
  [
    /^Without slot opening-height the opening is drawn 0 mm high\.$/,
    'Ohne slot opening-height ist die Öffnung 0 mm hoch gezeichnet.',
  ],
  [
    /^Without slot opening-height the slots are drawn midway between the gaps\.$/,
    'Ohne slot opening-height sind die Nuten in der Mitte zwischen den Luftspalten gezeichnet.',
  ],
  [
    /^Without slot opening it is drawn as wide as the slot\.$/,
    'Ohne slot opening ist sie so breit wie die Nut gezeichnet.',
  ],
  [
    /^Without bar width and height the bars are drawn to fill the slot, not to scale\.$/,
    'Ohne bar width und height füllen die Stäbe die Nut, nicht maßstäblich.',
  ],
  [
    /^The bars do not fit the slot: they are drawn smaller, not to scale\.$/,
    'Die Stäbe passen nicht in die Nut: Sie sind kleiner gezeichnet, nicht maßstäblich.',
  ],
  [
    /^The slots reach beyond the outside: its back is not drawn\.$/,
    'Die Nuten reichen über den Außendurchmesser: Der Rücken ist nicht gezeichnet.',
  ],
  [
    /^Developed, not to scale\. To scale it needs (.*)\.$/,
    'Abgewickelt, nicht maßstäblich. Für den Maßstab fehlen $1.',
  ],
  [/^Outside diameter (.*)\.$/, 'Außendurchmesser $1.'],
  [/^a slot depth less than the radius of the gap$/, 'eine Nuttiefe unter dem Radius des Luftspalts'],
  [/^a slot width less than the slot pitch$/, 'eine Nutbreite unter der Nutteilung'],
  [/^slots narrower than the slot pitch$/, 'Nuten schmaler als die Nutteilung'],
  [/^a liner and wedge that leave room in the slot$/, 'liner und wedge, die in der Nut Platz lassen'],
  [/^an outside larger than the bore$/, 'ein Außendurchmesser über der Bohrung'],
  [/^bars that fit their slot$/, 'Stäbe, die in ihre Nut passen'],
  [/^bar ends that lie near each other$/, 'Stabenden, die nahe beieinander liegen'],
  [
    /^bar width and height that both legs of a hairpin share$/,
    'bar width und height, die beide Schenkel eines Hairpins gemeinsam haben',
  ],
  [/^bar corner of at most half the thinner side$/, 'bar corner von höchstens der halben schmaleren Seite'],
  [/^connect paths through every bar$/, 'connect mit Zweigen durch jeden Stab'],
  [/^connect path ends that a ring can join$/, 'connect mit Zweigenden, die ein Ring verbinden kann'],
  [/^duty points that do work$/, 'Punkte von duty, die Arbeit leisten'],
  [/^the currents of the paths$/, 'die Ströme der Zweige'],
  [
    /^machine current: the file gives no torque to hold; that takes its flux and current$/,
    'machine current: die Datei gibt kein Drehmoment an, das gleich bleiben könnte; dafür braucht sie flux und current',
  ],
  [/^(\S+ \S+): nothing settles it where (.*) varies$/, '$1: nichts legt es fest, wo $2 veränderlich ist'],
  [
    /^(\S+ \S+): nothing settles it where (.*) and (.*) vary$/,
    '$1: nichts legt es fest, wo $2 und $3 veränderlich sind',
  ],
  [
    /^The paths of both texts \((\S+), (\S+)\) are found, not written out\.$/,
    'Die Zweige beider Texte ($1, $2) sind gefunden, nicht ausgeschrieben.',
  ],
  ...compared('old', 'alte', 'alten'),
  ...compared('new', 'neue', 'neuen'),
  [/^The working wave now runs with the slot numbers\.$/, 'Die Arbeitswelle läuft jetzt mit den Nutnummern.'],
  [
    /^The working wave now runs against the slot numbers\.$/,
    'Die Arbeitswelle läuft jetzt gegen die Nutnummern.',
  ],
  [
    /^MMF amplitudes are for 1 A rms in each phase$/,
    'Amplituden der Durchflutung gelten für 1 A Effektivwert je Strang',
  ],
  [
    /^differential leakage is for point-like slots, without skew and without damping by a cage$/,
    'die Oberwellenstreuung gilt für punktförmige Nuten, ohne Schrägung und ohne Dämpfung durch einen Käfig',
  ],
  [
    /^rotor field harmonics have the relative amplitude 1\/harmonic \(odd harmonics\)( but for those given)?; pairs with a product below (\S+) are left out$/,
    'Oberwellen des Läuferfelds haben die bezogene Amplitude 1/Ordnung (ungerade Ordnungen), soweit nicht angegeben; Paare mit einem Produkt unter $2 sind weggelassen',
  ],
  [
    /^machine (bore|outside) enters no figure with the gap on the other side$/,
    'machine $1 geht in keinen Wert ein, wenn der Luftspalt auf der anderen Seite liegt',
  ],
  [
    /^open phases: the voltage between bars of two phases is not determined and left out$/,
    'offene Stränge: die Spannung zwischen Stäben zweier Stränge ist nicht bestimmt und weggelassen',
  ],
  [
    /^voltages between bars of the two sets: both star points at one potential$/,
    'Spannungen zwischen Stäben der beiden Sätze: beide Sternpunkte auf einem Potential',
  ],
  [/^leakage of the end windings is not computed$/, 'die Streuung der Wickelköpfe ist nicht berechnet'],
  [
    /^gap flux density: the fundamental flux spread over pole pitch and stack at the bore, without slot openings and fringing$/,
    'Flussdichte im Luftspalt: der Fluss der Grundwelle auf Polteilung und Blechpaket an der Bohrung verteilt, ohne Nutöffnungen und Randfelder',
  ],
  [
    /^leakage of the end windings: uniform currents in bar ends and connecting pieces, in air; .*$/,
    'Streuung der Wickelköpfe: gleichmäßige Ströme in Stabenden und Verbindungsstücken, in Luft; Zuleitungen jenseits der Verbindungen, Ringe, Gehäuse, das Ende des Läufers, Wirbelströme und das Randfeld am Luftspalt sind nicht nachgebildet',
  ],
  [
    /^two gaps: (\S+ %) of the torque acts on the inner rotor, the rest on the outer, as magnet height\/permeability, for magnets of equal remanence$/,
    'zwei Luftspalte: $1 des Drehmoments wirken auf den inneren Läufer, der Rest auf den äußeren, wie Magnethöhe/Permeabilität, bei Magneten gleicher Remanenz',
  ],
  [
    /^duty: the paths of a phase carry equal currents; the rated current is no limit$/,
    'Lastspiel: die Zweige eines Strangs führen gleiche Ströme; der Bemessungsstrom ist keine Grenze',
  ],
  [
    /^duty: at standstill the phases carry direct current, the one that gets hottest sqrt\(2\) times the rms current$/,
    'Lastspiel: im Stillstand führen die Stränge Gleichstrom, der heißeste das sqrt(2)-Fache des Effektivwerts',
  ],
  [
    /^duty: the core is held at its temperature over the cycle; with machine core-heat, core-cooling and coolant-temperature it follows the bars$/,
    'Lastspiel: der Kern bleibt über das Spiel auf seiner Temperatur; mit machine core-heat, core-cooling und coolant-temperature folgt er den Stäben',
  ],
  [
    /^yoke: half the flux of a pole to either side, evenly over its height$/,
    'Joch: der halbe Fluss eines Pols nach jeder Seite, gleichmäßig über seine Höhe',
  ],
];

/** What the notes of a comparison say of one of its texts. */
function compared(english: string, nominative: string, genitive: string): readonly Turn[] {
  const turn = (sentence: string, german: string): Turn => [new RegExp(`^${sentence}$`), german];
  return [
    turn(
      `The ${english} text yields no winding: bars, joints, shapes and numbers are not compared\\.`,
      `Der ${nominative} Text ergibt keine Wicklung: Stäbe, Verbindungen, Formen und Zahlen sind nicht verglichen.`,
    ),
    turn(
      `The ${english} text yields no paths: joints and shapes are not compared\\.`,
      `Der ${nominative} Text ergibt keine Zweige: Verbindungen und Formen sind nicht verglichen.`,
    ),
    turn(
      `Parts of the ${english} text are not understood: numbers that need them are not compared\\.`,
      `Teile des ${genitive} Textes sind nicht verstanden: Zahlen, die sie brauchen, sind nicht verglichen.`,
    ),
    turn(
      `The leakage of the end windings is not known of the ${english} text: numbers that count it, as the synchronous inductance, are not compared\\.`,
      `Die Streuung der Wickelköpfe des ${genitive} Textes ist nicht bekannt: Zahlen, die sie enthalten, wie die synchrone Induktivität, sind nicht verglichen.`,
    ),
    turn(
      `The paths of the ${english} text \\((\\S+)\\) are found, not written out\\.`,
      `Die Zweige des ${genitive} Textes ($1) sind gefunden, nicht ausgeschrieben.`,
    ),
  ];
}

/** Words that the engine put together, in German; as they are where they are words of the language. */
export function phrase(english: string): string {
  const heading = headings[english];
  if (heading !== undefined) return heading;
  if (isCell(english)) return cell(english);
  const sense = /^([a-z]) sense$/.exec(english);
  if (sense) return `${sense[1]} Richtung`;
  const turned = turns.reduce((words, [from, to]) => words.replace(from, to), english);
  return turned === english ? reason(barPart(english)) : turned;
}
