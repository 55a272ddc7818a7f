/** What pictures and key figures say, by its English wording; `{0}` stands for what is put in. */
export const sentences: Readonly<Record<string, string>> = {
  // Key figures and waves.
  Winding: 'Wicklung',
  'Slots and poles': 'Nuten und Pole',
  '{0} slots, {1} poles, {2} phases': '{0} Nuten, {1} Pole, {2} Stränge',
  'Slots per pole and phase': 'Nuten je Pol und Strang',
  'Layers and bars': 'Schichten und Stäbe',
  '1 layer': '1 Schicht',
  '{0} layers': '{0} Schichten',
  '1 bar': '1 Stab',
  '{0} bars': '{0} Stäbe',
  '{0} a phase': '{0} je Strang',
  'Of the fundamental, skew included.': 'Der Grundwelle, mit Schrägung.',
  'Distribution, pitch, skew': 'Zonung, Sehnung, Schrägung',
  'Factors of the fundamental; their product is the winding factor.':
    'Faktoren der Grundwelle; ihr Produkt ist der Wicklungsfaktor.',
  'Field energy of all harmonics against that of the working wave.':
    'Feldenergie aller Oberwellen, bezogen auf die der Arbeitswelle.',
  Phases: 'Stränge',
  'Parallel paths': 'Parallele Zweige',
  '{0}, at most {1}, or {2} with special crowns': '{0}, höchstens {1}, oder {2} mit besonderen Kronen',
  '{0}, at most {1}': '{0}, höchstens {1}',
  'At most so many balanced paths are possible, with regular crowns or with crowns of any span.':
    'Höchstens so viele symmetrische Zweige sind möglich, mit regelmäßigen Kronen oder mit Kronen beliebigen Schritts.',
  'Of one phase, in one path.': 'Eines Strangs, in einem Zweig.',
  'Repeats after': 'Wiederholt sich nach',
  'Working wave': 'Arbeitswelle',
  'runs with the slot numbers': 'läuft mit den Nutnummern',
  'runs against the slot numbers': 'läuft gegen die Nutnummern',
  'For the phase order {0}.': 'Für die Strangfolge {0}.',
  balanced: 'symmetrisch',
  'unbalanced by {0}': 'unsymmetrisch um {0}',
  '1 slot': '1 Nut',
  '{0} slots': '{0} Nuten',
  '{0} with opposite signs': '{0} mit umgekehrten Vorzeichen',
  backward: 'rückwärts',
  working: 'Arbeitswelle',
  forward: 'vorwärts',

  // What all pictures share.
  'Winding without a title': 'Wicklung ohne Titel',
  '{0} poles': '{0} Pole',
  'phases {0}': 'Stränge {0}',
  'needs {0}': 'braucht {0}',
  'cannot be computed': 'nicht berechenbar',
  'Assumed: {0}.': 'Angenommen: {0}.',
  '{0} at {1}': '{0} bei {1}',
  slot: 'Nut',
  layer: 'Schicht',
  phase: 'Strang',
  'layer {0}': 'Schicht {0}',
  'phase {0}': 'Strang {0}',
  'connection side': 'Schaltseite',
  'far side': 'Gegenseite',
  'not to scale': 'nicht maßstäblich',
  empty: 'leer',

  // The developed layout.
  'developed layout': 'abgewickelte Anordnung',
  '1 joint': '1 Verbindung',
  '{0} joints': '{0} Verbindungen',
  'terminals {0}': 'Klemmen {0}',
  'pole {0}': 'Pol {0}',
  'Developed layout of a winding with {0}: {1}. The connection side is at the top; slot numbers rise to the right.':
    'Abgewickelte Anordnung einer Wicklung mit {0}: {1}. Die Schaltseite ist oben; die Nutnummern steigen nach rechts.',
  'Developed, not to scale. Seen from the axis; slot numbers rise to the right, clockwise as seen from the connection side.':
    'Abgewickelt, nicht maßstäblich. Von der Achse aus gesehen; die Nutnummern steigen nach rechts, von der Schaltseite aus im Uhrzeigersinn.',
  'When a phase current enters at its line terminal, + bars carry it from the connection side to the far side (arrow down), \u2212 bars back.':
    'Tritt ein Strangstrom an seiner Leiterklemme ein, so führen ihn +Stäbe von der Schaltseite zur Gegenseite (Pfeil nach unten), \u2212Stäbe zurück.',
  'In each slot the layers stand from left to right: a nearest the axis, {0} farthest.':
    'In jeder Nut stehen die Schichten von links nach rechts: a am nächsten an der Achse, {0} am weitesten von ihr.',
  'A line cut at one edge goes on at the other edge at the same number or name (1 line in {0} is numbered).':
    'Eine am Rand geschnittene Linie geht am anderen Rand bei derselben Nummer oder demselben Namen weiter (eine von {0} Linien ist nummeriert).',
  'A line cut at one edge goes on at the other edge at the same number or name.':
    'Eine am Rand geschnittene Linie geht am anderen Rand bei derselben Nummer oder demselben Namen weiter.',
  'Thick joints are special: of another span, between other layers, or made by a separate piece.':
    'Dicke Verbindungen sind besondere: mit anderem Schritt, zwischen anderen Schichten oder durch ein eigenes Verbindungsstück.',
  'Cross strokes on a bar count its parallel path; a wide stroke counts five.':
    'Querstriche an einem Stab zählen seinen parallelen Zweig; ein breiter Strich zählt fünf.',
  'No joints are drawn: how the bars are joined is not yet given.':
    'Verbindungen sind nicht gezeichnet: Wie die Stäbe verbunden sind, ist noch nicht angegeben.',
  'No joints are drawn: {0}.': 'Verbindungen sind nicht gezeichnet: {0}.',
  'Coil ends are drawn by coil span, not by joints: how the coils are joined is not yet given.':
    'Spulenköpfe sind nach der Spulenweite gezeichnet, nicht nach Verbindungen: Wie die Spulen verbunden sind, ist noch nicht angegeben.',
  'Coil ends are drawn by coil span, not by joints: {0}.':
    'Spulenköpfe sind nach der Spulenweite gezeichnet, nicht nach Verbindungen: {0}.',
  'Lean of the bars over the stack in slot pitches, by layers: {0}.':
    'Neigung der Stäbe über das Blechpaket in Nutteilungen, nach Schichten: {0}.',

  // The section.
  'section of the slots': 'Schnitt durch die Nuten',
  '1:1 in millimeters, letters for prints at {0}': '1:1 in Millimetern, Schrift für Ausdrucke im Maßstab {0}',
  'scale {0}': 'Maßstab {0}',
  'all slots': 'alle Nuten',
  'slots 1 to {0} (one pole pair)': 'Nuten 1 bis {0} (ein Polpaar)',
  'slots 1 to {0} (the basic winding)': 'Nuten 1 bis {0} (die Urwicklung)',
  'inner gap': 'innerer Luftspalt',
  'gap, rotor inside': 'Luftspalt, Läufer innen',
  'outer gap': 'äußerer Luftspalt',
  'gap, rotor outside': 'Luftspalt, Läufer außen',
  '+ bar: current to the far side': '+Stab: Strom zur Gegenseite',
  '\u2212 bar: current to the connection side': '\u2212Stab: Strom zur Schaltseite',
  'phase, sense of the current and parallel path': 'Strang, Richtung des Stroms und paralleler Zweig',
  'phase and sense of the current': 'Strang und Richtung des Stroms',
  'Seen from the connection side; slot numbers rise clockwise. In each bar: {0}.':
    'Von der Schaltseite aus gesehen; die Nutnummern steigen im Uhrzeigersinn. In jedem Stab: {0}.',
  'Senses are those of currents that enter at the line terminals.':
    'Die Richtungen sind die von Strömen, die an den Leiterklemmen eintreten.',
  'Layer a lies nearest the axis, {0} farthest.':
    'Schicht a liegt am nächsten an der Achse, {0} am weitesten von ihr.',
  'The bars lean: this is the section at mid-stack.':
    'Die Stäbe sind geneigt: Dies ist der Schnitt in der Mitte des Blechpakets.',
  'Bars are drawn without coating, their edges square.':
    'Die Stäbe sind ohne Isolierung und scharfkantig gezeichnet.',
  'The thin line round a bar is its coating.': 'Die dünne Linie um einen Stab ist seine Isolierung.',
  '{0}; and 1 more slot': '{0}; und 1 weitere Nut',
  '{0}; and {1} more slots': '{0}; und {1} weitere Nuten',
  'Section of the slots of a winding with {0}. Bars from the axis outwards, by slots: {1}.':
    'Schnitt durch die Nuten einer Wicklung mit {0}. Stäbe von der Achse nach außen, nach Nuten: {1}.',

  // Phasors.
  phasors: 'Zeiger',
  'Star of slots': 'Nutenstern',
  'EMF of the paths, in EMFs of one bar': 'EMK der Zweige, in EMK eines Stabs',
  'EMF of the phases, in EMFs of one bar': 'EMK der Stränge, in EMK eines Stabs',
  'Paths bar by bar from the line terminal': 'Zweige Stab für Stab von der Leiterklemme aus',
  'Phases bar by bar': 'Stränge Stab für Stab',
  'Slot s lags slot 1 by p (s \u2212 1) 360\u00b0/Q = (s \u2212 1) {0}\u00b0; lagging is clockwise, slot 1 points up. Fundamental, order {1}.':
    'Nut s eilt Nut 1 um p (s \u2212 1) 360\u00b0/Q = (s \u2212 1) {0}\u00b0 nach; nacheilend ist im Uhrzeigersinn, Nut 1 zeigt nach oben. Grundwelle, Ordnung {1}.',
  'Slots {0} apart lie on one ray: 1, {1}, and so on, {2} slots each.':
    'Nuten im Abstand von {0} liegen auf einem Strahl: 1, {1} und so weiter, je {2} Nuten.',
  'Rings from inside, by layers: {0}.': 'Ringe von innen, nach Schichten: {0}.',
  'Each row is turned so that the mean of its phase\u2019s paths points to the right; behind it stand length, quotient to the number of bars (the winding factor where all paths agree) and angle against that mean.':
    'Jede Zeile ist so gedreht, dass das Mittel der Zweige ihres Strangs nach rechts zeigt; dahinter stehen Länge, Quotient zur Zahl der Stäbe (der Wicklungsfaktor, wo alle Zweige gleich sind) und Winkel gegen dieses Mittel.',
  'The bars follow each other by layers {0}, in each by slots; behind each row stand its length and the quotient to the number of bars (the winding factor).':
    'Die Stäbe folgen einander nach Schichten {0}, in jeder nach Nuten; hinter jeder Zeile stehen ihre Länge und der Quotient zur Zahl der Stäbe (der Wicklungsfaktor).',
  'Bars are shortened by their skew factors.': 'Die Stäbe sind um ihre Schrägungsfaktoren verkürzt.',
  '{0} path {1}': '{0} Zweig {1}',
  'Phasors of a winding with {0}.': 'Zeiger einer Wicklung mit {0}.',
  'Star of slots with {0} rays, {1} electrical degrees from slot to slot.':
    'Nutenstern mit {0} Strahlen, {1} elektrische Grad von Nut zu Nut.',
  'Sums of the EMF phasors in EMFs of one bar: {0}.': 'Summen der EMK-Zeiger in EMK eines Stabs: {0}.',
  'no bars': 'keine Stäbe',
  '{0} of {1} = {2}': '{0} von {1} = {2}',
  '{0}, path {1}': '{0}, Zweig {1}',
  'EMF of one bar': 'EMK eines Stabs',
  'EMF of {0} bars': 'EMK von {0} Stäben',

  // The field.
  field: 'Feld',
  'The currents of all slots do not add up to zero: there is no MMF over the bore.':
    'Die Ströme aller Nuten ergeben nicht null: Es gibt keine Durchflutung über der Bohrung.',
  'MMF of point slots with balanced currents; each slot raises it by its ampere-conductors. Corners of the polygon are the teeth, tooth 1 between slots 1 and 2; its projection on the arrow is the MMF at this instant.':
    'Durchflutung punktförmiger Nuten mit symmetrischen Strömen; jede Nut hebt sie um ihre Amperestäbe. Ecken des Vielecks sind die Zähne, Zahn 1 zwischen den Nuten 1 und 2; seine Projektion auf den Pfeil ist die Durchflutung in diesem Augenblick.',
  'A/A: MMF for each ampere of rms phase current, as the text does not give the current.':
    'A/A: Durchflutung je Ampere effektiven Strangstroms, weil der Text den Strom nicht angibt.',
  'Slots 1 to {0} of {1} are shown; the MMF repeats {2} times.':
    'Gezeigt sind die Nuten 1 bis {0} von {1}; die Durchflutung wiederholt sich {2}-mal.',
  'For the phase order {0} the working wave runs with the slot numbers.':
    'Für die Strangfolge {0} läuft die Arbeitswelle mit den Nutnummern.',
  'For the phase order {0} the working wave runs against the slot numbers.':
    'Für die Strangfolge {0} läuft die Arbeitswelle gegen die Nutnummern.',
  'Shown are the first {0} orders with a winding factor of 0.0005 or a wave of 0.1 % of the working wave, or more.':
    'Gezeigt sind die ersten {0} Ordnungen mit einem Wicklungsfaktor ab 0.0005 oder einer Welle ab 0.1 % der Arbeitswelle.',
  'wave {0} % forward': 'Welle {0} % vorwärts',
  'wave {0} % backward': 'Welle {0} % rückwärts',
  'order {0}: {1}': 'Ordnung {0}: {1}',
  'factor {0}': 'Faktor {0}',
  'Field of a winding with {0}.': 'Feld einer Wicklung mit {0}.',
  'Working wave of order {0}: {1}.': 'Arbeitswelle der Ordnung {0}: {1}.',
  'Orders with winding factor and MMF wave against the working wave: {0}.':
    'Ordnungen mit Wicklungsfaktor und Welle der Durchflutung, bezogen auf die Arbeitswelle: {0}.',
  'Winding factors': 'Wicklungsfaktoren',
  'order over pole pairs': 'Ordnung durch Polpaare',
  'winding factor, skew included': 'Wicklungsfaktor mit Schrägung',
  'MMF waves': 'Wellen der Durchflutung',
  'order: pole pairs round the bore': 'Ordnung: Polpaare am Umfang',
  'amplitude in % of the working wave': 'Amplitude in % der Arbeitswelle',
  'with the working wave': 'mit der Arbeitswelle',
  'against it': 'gegen sie',
  'Phasor polygon of the teeth\u2019s MMF': 'Görges-Polygon der Zähne',
  'circle: amplitude of the working wave, {0}': 'Kreis: Amplitude der Arbeitswelle, {0}',
  'MMF over the bore': 'Durchflutung',
  'MMF in {0}': 'Durchflutung in {0}',
  MMF: 'Treppe',
  'working wave, order {0}, {1}': 'Arbeitswelle, Ordnung {0}, {1}',
  'at {0}': 'bei {0}',
  '{0}; currents over their peak: {1}': '{0}; Ströme durch Scheitelwert: {1}',

  // Copper and operation.
  copper: 'Kupfer',
  'AC resistance by layers': 'Wechselstromwiderstand nach Schichten',
  'layer, a nearest the axis': 'Schicht, a am nächsten an der Achse',
  'AC over DC resistance in the slot': 'Wechsel- durch Gleichstromwiderstand in der Nut',
  all: 'alle',
  'AC resistance against frequency': 'Wechselstromwiderstand über der Frequenz',
  frequency: 'Frequenz',
  'AC over DC resistance in the slot, by layers and for all bars':
    'Wechsel- durch Gleichstromwiderstand in der Nut, nach Schichten und für alle Stäbe',
  'Temperature along the hottest bar, layer {0}: at most {1}': 'Heißester Stab (Schicht {0}): höchstens {1}',
  'Temperature along the hottest bar': 'Temperatur entlang des heißesten Stabs',
  'Temperature along the hottest bar at the rated point':
    'Temperatur entlang des heißesten Stabs im Bemessungspunkt',
  'distance from mid-bar': 'Abstand von der Stabmitte',
  temperature: 'Temperatur',
  overhang: 'Wickelkopf',
  resistance: 'Widerstand',
  'bar length': 'Stablänge',
  'working wave': 'Arbeitswelle',
  'What lean costs': 'Was Neigung kostet',
  'lean over the stack in slot pitches': 'Neigung über das Blechpaket in Nutteilungen',
  'against straight bars': 'bezogen auf gerade Stäbe',
  'What lean gives': 'Was Neigung bringt',
  'torsional stiffness of the bars': 'Drehsteifigkeit der Stäbe',
  'Stress at the machine\u2019s torque': 'Spannung beim Drehmoment der Maschine',
  'along the bars': 'längs der Stäbe',
  'bending at the ends': 'Biegung an den Enden',
  'stress of the bars': 'Spannung der Stäbe',
  'as written': 'wie geschrieben',
  'Copper of a winding with {0}.': 'Kupfer einer Wicklung mit {0}.',
  '{0}: {1}, by layers {2}.': '{0}: {1}, nach Schichten {2}.',
  '{0} slot pitch': '{0} Nutteilung',
  '{0} slot pitches': '{0} Nutteilungen',
  'At a lean of {0} the working wave is {1} of that of straight bars.':
    'Bei einer Neigung von {0} ist die Arbeitswelle {1} von der gerader Stäbe.',
  operation: 'Betrieb',
  speed: 'Drehzahl',
  'base speed {0}': 'Eckdrehzahl {0}',
  'Copper loss at the points of the duty': 'Kupferverlust in den Punkten des Lastspiels',
  'point of the duty': 'Punkt des Lastspiels',
  '{0}; hatched: by eddies, harmonics and the field of the rotor':
    '{0}; schraffiert: Wirbelströme, Oberschwingungen, Läuferfeld',
  loss: 'Verlust',
  'Temperature of the hottest place over the cycle': 'Temperatur der heißesten Stelle über das Lastspiel',
  bar: 'Stab',
  core: 'Kern',
  'time in {0}': 'Zeit in {0}',
  rated: 'Bemessung',
  'voltage {0}': 'Spannung {0}',
  'Most torque within current and voltage': 'Größtes Drehmoment bei Strom und Spannung',
  torque: 'Drehmoment',
  'Shaft power at that torque': 'Wellenleistung bei diesem Drehmoment',
  power: 'Leistung',
  'Line voltage': 'Leiterspannung',
  '{0}, rms': '{0}, effektiv',
  'line voltage': 'Leiterspannung',
  'Power factor': 'Leistungsfaktor',
  'power factor': 'Leistungsfaktor',
  'Operation of a winding with {0}.': 'Betrieb einer Wicklung mit {0}.',

  // The comparison's numbers and limits.
  '{0}, layer {1}': '{0}, Schicht {1}',
  ' of a point of the duty': ' eines Punkts des Lastspiels',
  '{0}, harmonic {1}': '{0}, Oberschwingung {1}',
  '{0}, phase {1}': '{0}, Strang {1}',
  'at most {0}': 'höchstens {0}',
  'at least {0}': 'mindestens {0}',
  '{0}, {1} from {2}': '{0}, {1}; vorher {2}',
  '{0}, {1}': '{0}, {1}',

  // Bars in space.
  'bars in space': 'Stäbe im Raum',
  '{0}, seen from above the connection side': '{0}, von oberhalb der Schaltseite gesehen',
  '{0} and {1}, far side': '{0} und {1}, Gegenseite',
  '{0} and {1}, connection side': '{0} und {1}, Schaltseite',
  '1 pair': '1 Paar',
  '{0} pairs': '{0} Paare',
  '{0}, with the assumed bend radius': '{0}, mit dem angenommenen Biegeradius',
  '{0}: {1} into each other ({2}).': '{0}: {1} ineinander ({2}).',
  '{0}: {1} apart, nearer than asked for ({2}).': '{0}: {1} auseinander, näher als verlangt ({2}).',
  'Bars without coating; the stack is drawn plain between the radii of the bars.':
    'Stäbe ohne Isolierung; das Blechpaket ist schlicht zwischen den Radien der Stäbe gezeichnet.',
  'star and terminal rings': 'Stern- und Klemmenringe',
  'A dashed circle: behind other parts.': 'Ein gestrichelter Kreis: hinter anderen Teilen.',
  'Orthographic, connection side up; hidden parts are left out. Bars without coating, their edges square; the stack is drawn plain between the radii of the bars.':
    'Orthografisch, Schaltseite oben; Verdecktes ist weggelassen. Stäbe ohne Isolierung, scharfkantig; das Blechpaket ist schlicht zwischen den Radien der Stäbe gezeichnet.',
  'Bend radius assumed, because the text does not give it: {0} mm. CAD files and bend lists need bar bend-radius.':
    'Biegeradius angenommen, weil der Text ihn nicht angibt: {0} mm. CAD-Dateien und Biegelisten brauchen bar bend-radius.',
  'The joints of the connection side end {0} to {1} above the stack.':
    'Die Verbindungen der Schaltseite enden {0} bis {1} über dem Blechpaket.',
  'The joints of the far side end {0} to {1} above the stack.':
    'Die Verbindungen der Gegenseite enden {0} bis {1} über dem Blechpaket.',
  '1 connecting piece': '1 Verbindungsstück',
  '{0} connecting pieces': '{0} Verbindungsstücke',
  'rings {0}': 'Ringe {0}',
  'Rings of the connection side, from the stack outwards: {0}.':
    'Ringe der Schaltseite, vom Blechpaket nach außen: {0}.',
  'Rings of the far side, from the stack outwards: {0}.':
    'Ringe der Gegenseite, vom Blechpaket nach außen: {0}.',
  'Bars in space of a winding with {0}.': 'Stäbe im Raum einer Wicklung mit {0}.',
  'Bars in space of a winding with {0}, seen from above the connection side.':
    'Stäbe im Raum einer Wicklung mit {0}, von oberhalb der Schaltseite gesehen.',
  '{0} bars in layers a to {1}.': '{0} Stäbe in den Schichten a bis {1}.',
  '{0} bars in layers a to {1}, {2} of them in sight.':
    '{0} Stäbe in den Schichten a bis {1}, davon {2} in Sicht.',
  'They stand out of the stack by {0} on the connection side and {1} on the far side.':
    'Sie ragen auf der Schaltseite {0} und auf der Gegenseite {1} aus dem Blechpaket.',
  'Above the ends: {0}.': 'Über den Enden: {0}.',
  'Not drawn: the bars in space need {0}.': 'Nicht gezeichnet: Die Stäbe im Raum brauchen {0}.',

  // What a comparison comes to.
  'New winding.': 'Neue Wicklung.',
  'Winding deleted.': 'Wicklung gelöscht.',
  ', with {0} written differently': ', {0} anders geschrieben',
  'The same winding, renumbered: slot 1 is now slot {0}, and so on round the bore{1}.':
    'Dieselbe Wicklung, anders nummeriert: Nut 1 ist jetzt Nut {0} und so fort um die Bohrung{1}.',
  'The same layout, renumbered: slot 1 is now slot {0}, and so on round the bore{1}.':
    'Dieselbe Anordnung, anders nummeriert: Nut 1 ist jetzt Nut {0} und so fort um die Bohrung{1}.',
  'The same statements, which yield no winding.': 'Dieselben Angaben, die keine Wicklung ergeben.',
  'Not comparable as windings.': 'Nicht als Wicklungen vergleichbar.',
  'The same winding{0}.': 'Dieselbe Wicklung{0}.',
  'The same layout, paths and joints{0}.': 'Dieselbe Anordnung, dieselben Zweige und Verbindungen{0}.',
  'The winding changed.': 'Die Wicklung ist eine andere.',
  '1 statement changed': '1 Angabe geändert',
  '{0} statements changed': '{0} Angaben geändert',
  '1 bar place changed': '1 Stabplatz geändert',
  '{0} bar places changed': '{0} Stabplätze geändert',
  '1 joint added': '1 Verbindung hinzugekommen',
  '{0} joints added': '{0} Verbindungen hinzugekommen',
  '1 joint removed': '1 Verbindung entfallen',
  '{0} joints removed': '{0} Verbindungen entfallen',
  '1 new bar shape': '1 neue Stabform',
  '{0} new bar shapes': '{0} neue Stabformen',
  '1 new joint shape': '1 neue Verbindungsform',
  '{0} new joint shapes': '{0} neue Verbindungsformen',
  'another section': 'anderer Querschnitt',
  'another mean length': 'andere mittlere Länge',
  'Bars are made otherwise: {0}.': 'Stäbe werden anders gefertigt: {0}.',
  '1 number moved: {0} better, {1} worse.': '1 Zahl ist anders: {0} besser, {1} schlechter.',
  '{0} numbers moved: {1} better, {2} worse.': '{0} Zahlen sind anders: {1} besser, {2} schlechter.',
  '1 number hardly moved.': '1 Zahl ist kaum anders.',
  '{0} numbers hardly moved.': '{0} Zahlen sind kaum anders.',
  'The limit holds.': 'Die Grenze ist eingehalten.',
  'Both limits hold.': 'Beide Grenzen sind eingehalten.',
  'All {0} limits hold.': 'Alle {0} Grenzen sind eingehalten.',
  ' ({0} held before)': ' ({0} vorher eingehalten)',
  '1 of 1 limit fails{0}.': '1 von 1 Grenze ist verletzt{0}.',
  '1 of {0} limits fails{1}.': '1 von {0} Grenzen ist verletzt{1}.',
  '{0} of {1} limits fail{2}.': '{0} von {1} Grenzen sind verletzt{2}.',
  '1 limit loosened': '1 Grenze gelockert',
  '{0} limits loosened': '{0} Grenzen gelockert',
  '1 limit dropped': '1 Grenze gestrichen',
  '{0} limits dropped': '{0} Grenzen gestrichen',
  '1 limit tightened': '1 Grenze verschärft',
  '{0} limits tightened': '{0} Grenzen verschärft',
  '1 new limit': '1 neue Grenze',
  '{0} new limits': '{0} neue Grenzen',
  '1 finding.': '1 Befund.',
  '{0} findings.': '{0} Befunde.',
  '1 new finding, {0} gone.': '1 neuer Befund, {0} entfallen.',
  '{0} new findings, {1} gone.': '{0} neue Befunde, {1} entfallen.',
  '1 error now, as before.': 'Jetzt 1 Fehler, wie vorher.',
  '{0} errors now, as before.': 'Jetzt {0} Fehler, wie vorher.',
  '1 error now.': 'Jetzt 1 Fehler.',
  '{0} errors now.': 'Jetzt {0} Fehler.',
  'No errors any more.': 'Keine Fehler mehr.',
  '1 warning.': '1 Warnung.',
  '{0} warnings.': '{0} Warnungen.',
  '1 kind of warning is accepted no more.': '1 Art von Warnung ist nicht mehr angenommen.',
  '{0} kinds of warning are accepted no more.': '{0} Arten von Warnungen sind nicht mehr angenommen.',
  ', {0} no more': ', {0} nicht mehr',
  '1 kind of warning is newly accepted{0}.': '1 Art von Warnung ist neu angenommen{0}.',
  '{0} kinds of warning are newly accepted{1}.': '{0} Arten von Warnungen sind neu angenommen{1}.',
  '{0} and {1}': '{0} und {1}',
  // What stays equal between variants.
  'flux density in the gap (the flux of a pole follows)':
    'Flussdichte im Luftspalt (der Fluss eines Pols folgt)',
  'flux of a pole': 'Fluss eines Pols',
  'torque (the current follows)': 'Drehmoment (der Strom folgt)',
  'torque {0} Nm (the current follows)': 'Drehmoment {0} Nm (der Strom folgt)',
  current: 'Strom',
  'share of slots in the slot pitch, and of bars in the room of their slot':
    'Anteil der Nuten an der Nutteilung und der Stäbe am Platz in ihrer Nut',
  'sizes of slots and bars': 'Maße von Nuten und Stäben',
};
