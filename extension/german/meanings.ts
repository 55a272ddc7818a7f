/** What the words of the language mean, by their English meaning in the vocabulary. */
export const meanings: Readonly<Record<string, string>> = {
  'Name of the winding; it heads reports and drawings.':
    'Name der Wicklung; er steht über Berichten und Zeichnungen.',
  'The machine around the winding: slots, poles, phases, sizes, speed.':
    'Die Maschine um die Wicklung: Nuten, Pole, Stränge, Maße, Drehzahl.',
  'The slot; once for each group of layers where layers lie in separate slot rows.':
    'Die Nut; einmal für jede Gruppe von Schichten, wo Schichten in getrennten Nutreihen liegen.',
  'The copper bar: section, metal, form and ends.': 'Der Kupferstab: Querschnitt, Metall, Form und Enden.',
  'Limits for the voltages between bars.': 'Grenzen für die Spannungen zwischen Stäben.',
  'Which phase and sense lies in each place: generated from a coil span, or written row by row.':
    'Welcher Strang in welchem Sinn an jedem Platz liegt: aus einem Spulenschritt erzeugt, oder Zeile für Zeile geschrieben.',
  'How bars are joined into paths and phases.': 'Wie Stäbe zu Zweigen und Strängen verbunden sind.',
  'The duty cycle: points of speed and torque or current that follow each other again and again.':
    'Das Lastspiel: Punkte aus Drehzahl und Drehmoment oder Strom, die immer wieder aufeinander folgen.',
  'Acceptance limits; a failed limit is an error.':
    'Abnahmegrenzen; eine nicht eingehaltene Grenze ist ein Fehler.',
  'Values to try, and what to keep of them: which winding at all. Everything else leaves it out of account.':
    'Werte zum Versuchen, und was davon behalten wird: welche Wicklung überhaupt. Alles andere lässt den Block außer Acht.',
  'The fields of the title block and the notes of the handover sheet.':
    'Die Felder des Schriftfelds und die Hinweise des Übergabeblatts.',
  'Number of slots round the bore.': 'Zahl der Nuten um die Bohrung.',
  'Number of poles (twice the pole pairs).': 'Zahl der Pole (das Doppelte der Polpaare).',
  'Number of phases: odd from 3 to 15, or 6 in two sets apart by an electrical angle.':
    'Zahl der Stränge: ungerade von 3 bis 15, oder 6 in zwei Sätzen, um einen elektrischen Winkel versetzt.',
  'Where the rotor stands: inside (inner), outside (outer), or one on each side (both).':
    'Wo der Läufer steht: innen (inner), außen (outer), oder je einer auf beiden Seiten (both).',
  'Stator diameter at the inner gap.': 'Ständerdurchmesser am inneren Luftspalt.',
  'Stator diameter at the outer gap; left out with two gaps, it follows from bore, slot depth and opening-height.':
    'Ständerdurchmesser am äußeren Luftspalt; mit einem Luftspalt auf beiden Seiten folgt er, wo er wegbleibt, aus Bohrung, Nuttiefe und opening-height.',
  'Axial length of the stator stack.': 'Axiale Länge des Blechpakets.',
  'Share of the stack’s length that is iron, between the coatings of its sheets.':
    'Anteil der Blechpaketlänge, der Eisen ist, zwischen den Lackschichten der Bleche.',
  'Radial height of the stator yoke behind the slots.': 'Radiale Höhe des Ständerjochs hinter den Nuten.',
  'Radial air gap; of gaps on both sides inner and outer, or one for both.':
    'Radialer Luftspalt; bei Luftspalten auf beiden Seiten innen und außen, oder einer für beide.',
  'Radial magnet height; of gaps on both sides inner and outer, or one for both.':
    'Radiale Magnethöhe; bei Luftspalten auf beiden Seiten innen und außen, oder eine für beide.',
  'Relative recoil permeability of the magnets.': 'Relative permanente Permeabilität der Magnete.',
  "Whether Carter's factor widens the gap for the slot opening.":
    'Ob der Carter-Faktor den Luftspalt für den Nutschlitz aufweitet.',
  'Rotor speed.': 'Drehzahl des Läufers.',
  'Electrical frequency; give it or the speed.':
    'Elektrische Frequenz; angegeben wird sie oder die Drehzahl.',
  'Fundamental flux of one pole.': 'Fluss der Grundwelle eines Pols.',
  'Terminal current, rms.': 'Klemmenstrom, effektiv.',
  'Electrical angle by which the phase current leads the EMF; positive weakens the field.':
    'Elektrischer Winkel, um den der Strangstrom der EMK voreilt; ein positiver schwächt das Feld.',
  'Synchronous inductance of a phase along the axis of the rotor’s flux, without the end winding, from a plane field computation.':
    'Synchrone Induktivität eines Strangs in der Achse des Läuferflusses, ohne Wickelkopf, aus einer ebenen Feldrechnung.',
  'Synchronous inductance of a phase along the axis of the EMF, without the end winding, from a plane field computation.':
    'Synchrone Induktivität eines Strangs in der Achse der EMK, ohne Wickelkopf, aus einer ebenen Feldrechnung.',
  'Rated line voltage, rms: what the supply gives at most; base and top speed and the withstand test follow from it.':
    'Bemessungs-Leiterspannung, effektiv: was die Versorgung höchstens gibt; Eckdrehzahl, Höchstdrehzahl und Prüfspannung folgen daraus.',
  'Temperature of the winding for resistance.': 'Temperatur der Wicklung für den Widerstand.',
  'Temperature of what cools the bar ends, and of the core without a core-temperature.':
    'Temperatur dessen, was die Stabenden kühlt, und des Kerns, wo core-temperature fehlt.',
  'Temperature at which the core is held; without it, and without what lets the core follow, that of the ends.':
    'Temperatur, auf der der Kern gehalten wird; ohne sie, und ohne was den Kern folgen lässt, die der Enden.',
  'Heat capacity of a core that the bars heat, in place of a core-temperature: how slowly it follows the duty.':
    'Wärmekapazität eines Kerns, den die Stäbe heizen, statt core-temperature: wie langsam er dem Lastspiel folgt.',
  'Heat conductance from a core that the bars heat to its coolant.':
    'Wärmeleitwert von einem Kern, den die Stäbe heizen, zu seinem Kühlmittel.',
  'Temperature of what cools a core that the bars heat.':
    'Temperatur dessen, was einen Kern kühlt, den die Stäbe heizen.',
  'Which end of the stator is the drive end, for the direction of rotation.':
    'Welches Ende des Ständers die Antriebsseite ist, für die Drehrichtung.',
  'Skew of the rotor over the stack, the total; in equal steps, or continuous.':
    'Schrägung des Läufers über das Blechpaket, insgesamt; in gleichen Stufen, oder stetig.',
  'Relative amplitude of one harmonic of the rotor field.':
    'Relative Amplitude einer Oberwelle des Läuferfelds.',
  'Relative size of one harmonic of the phase current, an order of the fundamental; its phase sequence follows from the order.':
    'Relative Größe einer Oberschwingung des Strangstroms, als Ordnung der Grundschwingung; ihre Phasenfolge ergibt sich aus der Ordnung.',
  'Relative size of the ripple that a carrier leaves in the phase current, and its frequency; taken as of positive sequence.':
    'Relative Größe der Welligkeit, die eine Trägerfrequenz im Strangstrom lässt, und ihre Frequenz; als Mitsystem angenommen.',
  'Electrical angle by which the second three-phase set lags.':
    'Elektrischer Winkel, um den der zweite dreisträngige Satz nacheilt.',
  'Number of equal steps of the rotor skew.': 'Zahl gleicher Stufen der Läuferschrägung.',
  'Ends the number of steps of the rotor skew.': 'Schließt die Zahl der Stufen der Läuferschrägung ab.',
  'Multiple of the fundamental.': 'Vielfaches der Grundwelle.',
  'The rotor stands inside the stator.': 'Der Läufer steht innerhalb des Ständers.',
  'The rotor stands outside the stator.': 'Der Läufer steht außerhalb des Ständers.',
  'One rotor inside and one outside; the slots open to both gaps.':
    'Ein Läufer innen und einer außen; die Nuten öffnen sich zu beiden Luftspalten.',
  "Carter's factor is applied.": 'Der Carter-Faktor wird angewandt.',
  "Carter's factor is taken as 1.": 'Der Carter-Faktor gilt als 1.',
  'The end where the leads come out.': 'Das Ende, an dem die Zuleitungen herauskommen.',
  'The end opposite the leads.': 'Das Ende gegenüber den Zuleitungen.',
  'Slot width.': 'Nutbreite.',
  'Slot depth from the opening to its closed end (or to the other opening).':
    'Nuttiefe vom Nutschlitz bis zum geschlossenen Ende (oder zum anderen Schlitz).',
  'Width of the slot opening at the gap.': 'Breite des Nutschlitzes am Luftspalt.',
  'Radial height of the slot opening.': 'Radiale Höhe des Nutschlitzes.',
  'Radial height kept by the slot wedge.': 'Radiale Höhe, die der Nutkeil einnimmt.',
  'Thickness of the slot liner.': 'Dicke der Nutauskleidung.',
  'Insulation between two neighboring layers of a slot: its thickness.':
    'Isolation zwischen zwei benachbarten Schichten einer Nut: ihre Dicke.',
  'Heat conductance from a bar to the core, per meter of bar; without it no heat goes there.':
    'Wärmeleitwert von einem Stab zum Kern, je Meter Stab; ohne ihn geht keine Wärme dorthin.',
  'Peak of the rotor’s alternating field at the bars, mean over a bar, from a field computation; it matters for wide openings and stators without teeth.':
    'Scheitelwert des Wechselfelds des Läufers an den Stäben, Mittel über einen Stab, aus einer Feldrechnung; wichtig bei weiten Nutschlitzen und Ständern ohne Zähne.',
  'Along the radius.': 'In radialer Richtung.',
  'Across the slot.': 'Quer zur Nut.',
  'Bar width, across the slot; for all layers or for the layers named.':
    'Stabbreite, quer zur Nut; für alle Schichten oder für die genannten.',
  'Bar height, along the slot depth; for all layers or for the layers named.':
    'Stabhöhe, in Richtung der Nuttiefe; für alle Schichten oder für die genannten.',
  'Radial strands of a bar, perfectly transposed; for all layers or for the layers named.':
    'Radiale Teilleiter eines Stabs, vollkommen verdrillt; für alle Schichten oder für die genannten.',
  'Radius of the bar edges.': 'Radius der Stabkanten.',
  'Thickness of the coating on each face.': 'Dicke der Lackschicht auf jeder Seite.',
  'Metal of the bars.': 'Metall der Stäbe.',
  'Hairpin: crowns are formed on the far side. Straight: bars are joined on both sides.':
    'Hairpin: Auf der Gegenseite sind Kronen gebogen. Straight: Stäbe sind auf beiden Seiten verbunden.',
  'Heat conductance from a bar’s end winding to its surroundings at the end temperature, per meter of bar; without it bars are held at the end temperature where they leave the stack.':
    'Wärmeleitwert vom Wickelkopf eines Stabs zu seiner Umgebung auf der Endtemperatur, je Meter Stab; ohne ihn haben die Stäbe dort, wo sie das Blechpaket verlassen, die Endtemperatur.',
  'Straight part from the stack to the first sharp corner.':
    'Gerades Stück vom Blechpaket bis zur ersten scharfen Ecke.',
  'Clearance between neighboring bar ends.': 'Abstand zwischen benachbarten Stabenden.',
  'Straight part at a joint, from its sharp corner.':
    'Gerades Stück an einer Verbindung, ab der scharfen Ecke.',
  'Largest gap, copper to copper, between the straight parts of two joined bars; bars that stand further apart are set towards each other. Without it they stand as their layers do.':
    'Größter Spalt, Kupfer zu Kupfer, zwischen den geraden Stücken zweier verbundener Stäbe; weiter auseinander stehende werden zueinander gesetzt. Ohne ihn stehen sie wie ihre Schichten.',
  'Free: each joint ends as high as its bends make it. Level: all joints of a side end in one plane, the highest.':
    'Free: Jede Verbindung endet so hoch, wie ihre Biegungen es ergeben. Level: Alle Verbindungen einer Seite enden in einer Ebene, der höchsten.',
  'Inner radius of the end bends: edgewise, and flatwise (out of the layer) where it is another; without it one bar width, or as much as the ends hold.':
    'Innenradius der Biegungen an den Enden: hochkant, und flach (aus der Schicht heraus), wo er ein anderer ist; ohne ihn eine Stabbreite, oder so viel, wie die Enden aufnehmen.',
  'Straight part of leads and star ends beyond the height of a joint; without it they stop there.':
    'Gerades Stück von Zuleitungen und Sternenden über die Höhe einer Verbindung hinaus; ohne es hören sie dort auf.',
  'Resistance of each joint of two bars, or of a bar and a connecting piece.':
    'Widerstand jeder Verbindung zweier Stäbe, oder eines Stabs mit einem Verbindungsstück.',
  'Length of bar end without coating.': 'Länge des Stabendes ohne Lack.',
  'Width of separate connecting pieces, along the radius; without it that of their bars.':
    'Breite eigener Verbindungsstücke, in radialer Richtung; ohne sie die ihrer Stäbe.',
  'Height of separate connecting pieces, along the axis where they lie level; without it that of their bars.':
    'Höhe eigener Verbindungsstücke, in axialer Richtung, wo sie eben liegen; ohne sie die ihrer Stäbe.',
  'Clearance of connecting pieces and rings above the joints and from one level to the next; without it the end-clearance.':
    'Abstand von Verbindungsstücken und Ringen über den Verbindungen und von einer Ebene zur nächsten; ohne ihn end-clearance.',
  'Width of star and terminal rings, along the radius.':
    'Breite der Stern- und Klemmenringe, in radialer Richtung.',
  'Height of star and terminal rings, along the axis.':
    'Höhe der Stern- und Klemmenringe, in axialer Richtung.',
  'Inner radius of bends out of the layer.': 'Innenradius der Biegungen aus der Schicht heraus.',
  'Each joint ends as high as its bends make it.':
    'Jede Verbindung endet so hoch, wie ihre Biegungen es ergeben.',
  'All joints of a side end in one plane.': 'Alle Verbindungen einer Seite enden in einer Ebene.',
  'Annealed copper, IEC 60028.': 'Weichgeglühtes Kupfer, IEC 60028.',
  'Aluminium, 61 % of the conductivity of copper.': 'Aluminium, 61 % der Leitfähigkeit von Kupfer.',
  'Two legs and a crown from one bar; joined on the connection side.':
    'Zwei Schenkel und eine Krone aus einem Stab; auf der Schaltseite verbunden.',
  'Single bars, joined on both sides.': 'Einzelne Stäbe, auf beiden Seiten verbunden.',
  'Voltage the insulation between bars of one phase holds.':
    'Spannung, die die Isolation zwischen Stäben eines Strangs hält.',
  'Voltage the insulation between phases holds.': 'Spannung, die die Isolation zwischen Strängen hält.',
  'Factor by which surges raise the voltages.': 'Faktor, um den Stöße die Spannungen erhöhen.',
  'Layers of bars in a slot.': 'Schichten von Stäben in einer Nut.',
  'Coil span in slots, for a generated layout.': 'Spulenschritt in Nuten, für eine erzeugte Anordnung.',
  'Slots by which each further layer pair is moved.':
    'Nuten, um die jedes weitere Schichtpaar verschoben ist.',
  'Width of a phase belt: 180/phases or 360/phases electrical degrees; without it 180/phases.':
    'Breite einer Zone: 180/phases oder 360/phases elektrische Grad; ohne sie 180/phases.',
  'The places of one layer, slot by slot; or a layer derived from another.':
    'Die Plätze einer Schicht, Nut für Nut; oder eine Schicht, die aus einer anderen folgt.',
  'Lean of the bars of some layers over the stack, the total.':
    'Neigung der Stäbe einiger Schichten über das Blechpaket, insgesamt.',
  'Slots by which the derived layer is moved.': 'Nuten, um die die abgeleitete Schicht verschoben ist.',
  'The derived layer has all signs inverted.': 'In der abgeleiteten Schicht sind alle Vorzeichen umgekehrt.',
  'Repeats the whole row.': 'Wiederholt die ganze Zeile.',
  'Each second copy has its signs inverted.': 'In jeder zweiten Kopie sind die Vorzeichen umgekehrt.',
  'All layers.': 'Alle Schichten.',
  'The phases end in a star point; joined: two sets share one.':
    'Die Stränge enden in einem Sternpunkt; joined: zwei Sätze haben einen gemeinsam.',
  'The phases are joined in delta: U2 with V1, V2 with W1, W2 with U1.':
    'Die Stränge sind im Dreieck verbunden: U2 mit V1, V2 mit W1, W2 mit U1.',
  'Both ends of each phase are brought out.': 'Beide Enden jedes Strangs sind herausgeführt.',
  'Finds balanced parallel paths. What is wished for counts in the order written; behind it pieces, their levels, joint shapes, special joints, copper, terminal window.':
    'Findet ausgeglichene parallele Zweige. Wünsche zählen in der Reihenfolge, in der sie dastehen; danach Verbindungsstücke, ihre Ebenen, Formen der Verbindungen, Sonderverbindungen, Kupfer, Bogen der Anfänge.',
  'Where special spans lie: in the joined legs, which are then bent apart from their ring, or in the crowns, which leaves every ring alike. Without it in the joined legs, and on either side where no balanced paths are possible so.':
    'Wo besondere Schritte liegen: in den verbundenen Schenkeln, die dann einzeln gebogen werden, oder in den Kronen, was jeden Ring gleich lässt. Ohne Angabe in den verbundenen Schenkeln, und auf beiden Seiten, wo es sonst keine ausgeglichenen Zweige gibt.',
  'One path, written bar by bar from its line terminal.':
    'Ein Zweig, Stab für Stab von seiner Leiterklemme aus geschrieben.',
  'Copies all written paths of a phase to another, moved by some slots.':
    'Kopiert alle geschriebenen Zweige eines Strangs auf einen anderen, um einige Nuten verschoben.',
  'Rings that join star ends, the leads of each terminal, or both: above their ends, or beside what goes on past them, behind the winding first; without it there are none.':
    'Ringe, die Sternenden, die Zuleitungen jeder Klemme oder beides verbinden: über ihren Enden, oder neben dem, was daran vorbeigeht, zuerst hinter der Wicklung; ohne Angabe gibt es keine.',
  'A ring for each star point.': 'Ein Ring für jeden Sternpunkt.',
  'A ring for each terminal.': 'Ein Ring für jede Klemme.',
  'A ring for each star point and each terminal.': 'Ein Ring für jeden Sternpunkt und jede Klemme.',
  'Both sets end in one star point.': 'Beide Sätze enden in einem Sternpunkt.',
  'Number of parallel paths of each phase.': 'Zahl der parallelen Zweige jedes Strangs.',
  'Begins a wish for the fewest of something, before what is not wished for.':
    'Beginnt den Wunsch nach möglichst wenigen von etwas, vor dem, was nicht gewünscht ist.',
  'Begins a wish for the least of something, before what is not wished for.':
    'Beginnt den Wunsch nach möglichst wenig von etwas, vor dem, was nicht gewünscht ist.',
  'Separate connecting pieces.': 'Eigene Verbindungsstücke.',
  'Levels of connecting pieces one above another.': 'Ebenen von Verbindungsstücken übereinander.',
  'Shapes of special joints.': 'Formen von Sonderverbindungen.',
  'Special joints.': 'Sonderverbindungen.',
  'Shapes of bars.': 'Formen von Stäben.',
  'Legs bent apart from their ring.': 'Schenkel, die einzeln statt mit ihrem Ring gebogen werden.',
  'The voltage between neighboring bars of a slot.': 'Die Spannung zwischen benachbarten Stäben einer Nut.',
  'The slots that all joints reach over.': 'Die Nuten, über die alle Verbindungen reichen.',
  'The arc that holds the starts of a phase’s paths.':
    'Der Bogen, in dem die Anfänge der Zweige eines Strangs liegen.',
  'Accepts paths that do not agree place by place where slots hold two phases, up to this deviation of their currents by slot leakage.':
    'Lässt Zweige zu, die nicht Platz für Platz übereinstimmen, wo Nuten zwei Stränge enthalten, bis zu dieser Abweichung ihrer Ströme durch Nutstreuung.',
  'In the joined legs.': 'In den verbundenen Schenkeln.',
  'In the crowns.': 'In den Kronen.',
  'On either side.': 'Auf beiden Seiten.',
  'The line terminal the path starts at.': 'Die Leiterklemme, an der der Zweig beginnt.',
  'The terminal or star point the path ends at.': 'Die Klemme oder der Sternpunkt, an dem der Zweig endet.',
  'That end of the path lies on the far side.': 'Dieses Ende des Zweigs liegt auf der Gegenseite.',
  'The phase the paths are copied to.': 'Der Strang, auf den die Zweige kopiert werden.',
  'Slots by which the copied paths are moved.': 'Nuten, um die die kopierten Zweige verschoben sind.',
  'One stretch of the duty cycle: its name, speed (0 at standstill), torque (negative where it brakes) or terminal current, and how long it lasts.':
    'Ein Abschnitt des Lastspiels: sein Name, Drehzahl (0 im Stillstand), Drehmoment (negativ beim Bremsen) oder Klemmenstrom, und wie lange er dauert.',
  'Speed of the rotor; 0 rpm at standstill.': 'Drehzahl des Läufers; 0 rpm im Stillstand.',
  'Electrical frequency, in place of the speed.': 'Elektrische Frequenz, statt der Drehzahl.',
  'Torque at the shaft; negative where it brakes.': 'Drehmoment an der Welle; negativ beim Bremsen.',
  'Terminal current, rms, in place of the torque.': 'Klemmenstrom, effektiv, statt des Drehmoments.',
  'Electrical angle by which the current leads the EMF; without it the least current is taken, or the machine’s current-angle for a given current.':
    'Elektrischer Winkel, um den der Strom der EMK voreilt; ohne ihn wird der kleinste Strom genommen, oder bei gegebenem Strom current-angle der Maschine.',
  'How long the point lasts.': 'Wie lange der Punkt dauert.',
  'Distribution factor of an order.': 'Zonenfaktor einer Ordnung.',
  'Pitch factor of an order.': 'Sehnungsfaktor einer Ordnung.',
  'Skew factor of an order.': 'Schrägungsfaktor einer Ordnung.',
  'Winding factor of an order.': 'Wicklungsfaktor einer Ordnung.',
  'MMF wave of an order relative to the working wave.':
    'Durchflutungswelle einer Ordnung, bezogen auf die Arbeitswelle.',
  'Differential leakage relative to the magnetizing inductance.':
    'Oberwellenstreuung, bezogen auf die Hauptinduktivität.',
  'Largest difference of the voltages of parallel paths.':
    'Größter Unterschied der Spannungen paralleler Zweige.',
  'Largest difference of the voltages of the phases.': 'Größter Unterschied der Spannungen der Stränge.',
  'Largest circulating current relative to the current of a path.':
    'Größter Kreisstrom, bezogen auf den Strom eines Zweigs.',
  'Largest deviation of a path’s current at load from an equal share, by resistance, slot leakage and gap field.':
    'Größte Abweichung eines Zweigstroms unter Last von einem gleichen Anteil, durch Widerstand, Nutstreuung und Spaltfeld.',
  'Special joints of one phase.': 'Sonderverbindungen eines Strangs.',
  'Separate connecting pieces of one phase.': 'Eigene Verbindungsstücke eines Strangs.',
  'Distinct shapes of special joints.': 'Verschiedene Formen von Sonderverbindungen.',
  'Distinct bar shapes.': 'Verschiedene Stabformen.',
  'Hairpin legs bent by another amount than their ring.':
    'Hairpin-Schenkel, die anders gebogen sind als ihr Ring.',
  'Largest voltage between neighboring bars of a slot, of the phase voltage.':
    'Größte Spannung zwischen benachbarten Stäben einer Nut, als Anteil der Strangspannung.',
  'Largest voltage between bar ends of neighboring slots, of the phase voltage.':
    'Größte Spannung zwischen Stabenden benachbarter Nuten, als Anteil der Strangspannung.',
  'Copper area of the slot area.': 'Anteil des Kupfers an der Nutfläche.',
  'Current density of the bars.': 'Stromdichte der Stäbe.',
  'Phase resistance at the winding temperature.': 'Strangwiderstand bei Wicklungstemperatur.',
  'AC to DC loss of the slot part, mean over all bars.':
    'Wechsel- zu Gleichstromverlust des Nutteils, Mittel über alle Stäbe.',
  'Highest temperature along a bar; at a point of the duty if it lasted.':
    'Höchste Temperatur längs eines Stabs; an einem Punkt des Lastspiels, wenn er andauerte.',
  'Loss in the bars.': 'Verlust in den Stäben.',
  'Mass of the bars and connecting pieces.': 'Masse der Stäbe und Verbindungsstücke.',
  'Torsional stiffness of the crossed-bar cage.': 'Drehsteifigkeit des Käfigs aus gekreuzten Stäben.',
  'Axial stress of a cage bar at the torque of the machine.':
    'Axiale Spannung eines Käfigstabs beim Drehmoment der Maschine.',
  'Torque of the rated current at its angle.': 'Drehmoment des Bemessungsstroms bei seinem Winkel.',
  'Leakage inductance of the end windings of a phase, in air.':
    'Streuinduktivität der Wickelköpfe eines Strangs, in Luft.',
  'Smallest clearance between coated bar ends, negative where they collide; needs the bend-radius.':
    'Kleinster Abstand zwischen lackierten Stabenden, negativ, wo sie zusammenstoßen; braucht bend-radius.',
  'Line EMF, rms.': 'Leiter-EMK, effektiv.',
  'Line voltage at the rated load point, rms.': 'Leiterspannung im Bemessungspunkt, effektiv.',
  'Current at the terminals, rms: the rated one, or that of a point of the duty.':
    'Strom an den Klemmen, effektiv: der Bemessungsstrom, oder der eines Punkts des Lastspiels.',
  'Copper loss of a duty cycle, as energy.': 'Kupferverlust eines Lastspiels, als Energie.',
  'Mean copper loss of a duty cycle.': 'Mittlerer Kupferverlust eines Lastspiels.',
  'Mechanical work of a duty cycle over itself and the copper loss.':
    'Mechanische Arbeit eines Lastspiels, geteilt durch sie selbst und den Kupferverlust.',
  'Highest temperature of the bars in the periodic duty cycle.':
    'Höchste Temperatur der Stäbe im sich wiederholenden Lastspiel.',
  'Rms terminal current of a duty cycle.': 'Effektiver Klemmenstrom eines Lastspiels.',
  'Peak flux density at the narrowest place of a tooth, the larger of no load and load.':
    'Scheitelwert der Flussdichte an der engsten Stelle eines Zahns, der größere von Leerlauf und Last.',
  'Peak flux density in the yoke, the larger of no load and load.':
    'Scheitelwert der Flussdichte im Joch, der größere von Leerlauf und Last.',
  'Power factor at the rated load point.': 'Leistungsfaktor im Bemessungspunkt.',
  'Highest speed at which the rated current at its angle fits the voltage.':
    'Höchste Drehzahl, bei der der Bemessungsstrom bei seinem Winkel zur Spannung passt.',
  'Highest speed with full field weakening.': 'Höchste Drehzahl bei voller Feldschwächung.',
  'Terminal current that cancels the field of the rotor.': 'Klemmenstrom, der das Feld des Läufers aufhebt.',
  'Steady terminal current into a short circuit at the rated speed.':
    'Dauerstrom der Klemmen in einen Kurzschluss bei Bemessungsdrehzahl.',
  'Torque per square root of copper loss.': 'Drehmoment je Wurzel des Kupferverlusts.',
  'Accepts the warnings of a code, with the reason: they become infos and stand as accepted in report, sheet and comparison. Errors cannot be accepted.':
    'Nimmt die Warnungen eines Codes hin, mit der Begründung: Sie werden zu Hinweisen und stehen in Bericht, Blatt und Vergleich als hingenommen. Fehler können nicht hingenommen werden.',
  'The point of the duty, by its name.': 'Der Punkt des Lastspiels, nach seinem Namen.',
  'Pole pairs round the bore.': 'Polpaare um die Bohrung.',
  'What stays equal from variant to variant, one of each pair: gap-flux-density or flux, torque or current, shares or sizes.':
    'Was von Variante zu Variante gleich bleibt, eines aus jedem Paar: gap-flux-density oder flux, torque oder current, shares oder sizes.',
  'Leaves out variants that do not meet a limit, or those of the require block.':
    'Lässt Varianten weg, die eine Grenze nicht einhalten, oder die des Blocks require.',
  'The order of the variants; the first counts most. With more than one, those that none beats in all of them are marked as the front.':
    'Die Rangfolge der Varianten; das Erste zählt am meisten. Bei mehreren sind die markiert, die keine in allem schlägt.',
  'Steps a second row together with the first.': 'Lässt eine zweite Zeile mit der ersten laufen.',
  'Gives the second row the negated values of the first.':
    'Gibt der zweiten Zeile die negativen Werte der ersten.',
  'The last value of a row.': 'Der letzte Wert einer Zeile.',
  'The step from value to value.': 'Der Schritt von Wert zu Wert.',
  'The pole pitch in slots, to the nearest whole number; a number with a sign behind it counts from there.':
    'Die Polteilung in Nuten, zur nächsten ganzen Zahl; eine Zahl mit Vorzeichen dahinter zählt von dort.',
  'The flux follows the poles, the bore and the stack, so that the flux density in the gap stays that of the file.':
    'Der Fluss folgt Polen, Bohrung und Blechpaket, so dass die Flussdichte im Luftspalt die der Datei bleibt.',
  'The flux of a pole stays that of the file.': 'Der Fluss eines Pols bleibt der der Datei.',
  'The current follows, so that the torque stays that of the file.':
    'Der Strom folgt, so dass das Drehmoment das der Datei bleibt.',
  'The current stays that of the file.': 'Der Strom bleibt der der Datei.',
  'Slots keep their share of the slot pitch, and bars fill the room in them as before; insulation stays.':
    'Nuten behalten ihren Anteil an der Nutteilung, und Stäbe füllen den Raum darin wie zuvor; Isolation bleibt.',
  'Slots and bars keep their sizes.': 'Nuten und Stäbe behalten ihre Maße.',
  'All limits of the require block.': 'Alle Grenzen des Blocks require.',
  'The less of it the better.': 'Je weniger davon, desto besser.',
  'The more of it the better.': 'Je mehr davon, desto besser.',
  'Most parallel paths the symmetry of the layout allows.':
    'Höchste Zahl paralleler Zweige, die die Symmetrie der Anordnung zulässt.',
  'Periods of the cogging torque in a turn.': 'Perioden des Rastmoments in einer Umdrehung.',
  'Lowest order, other than 0, of the force waves listed.':
    'Niedrigste Ordnung, außer 0, der aufgeführten Kraftwellen.',
  'Times the layout repeats round the bore, as far as forces go.':
    'Wie oft sich die Anordnung um die Bohrung wiederholt, soweit es Kräfte betrifft.',
  'Legal owner of the drawing.': 'Rechtlicher Eigentümer der Zeichnung.',
  'Identification number of the drawing.': 'Identnummer der Zeichnung.',
  "Title of the drawing; without it the winding's.": 'Titel der Zeichnung; ohne ihn der der Wicklung.',
  'Revision index.': 'Änderungsindex.',
  'Date of issue, year-month-day.': 'Ausgabedatum, Jahr-Monat-Tag.',
  'Who made the drawing.': 'Wer die Zeichnung erstellt hat.',
  'Who approved the drawing.': 'Wer die Zeichnung genehmigt hat.',
  'Type of document.': 'Art des Dokuments.',
  'Document status.': 'Status des Dokuments.',
  'Sheet size after ISO 5457: A4, A3, A2, A1 or A0.': 'Blattgröße nach ISO 5457: A4, A3, A2, A1 oder A0.',
  'Language code of the sheet.': 'Sprachcode des Blatts.',
  'A note on the sheet.': 'Ein Hinweis auf dem Blatt.',
};

const valuesToTry =
  /^Values to try for a word of (\w+): a list, or from, to and step\. Rows combine, and override the file’s statement\.$/;

/** What a word of the language means, from its English meaning. */
export const meaning = (english: string): string | undefined =>
  valuesToTry.test(english)
    ? english.replace(
        valuesToTry,
        'Werte zum Versuchen für ein Wort von $1: eine Liste, oder von, bis und Schritt. Zeilen werden kombiniert, und treten an die Stelle der Anweisung in der Datei.',
      )
    : meanings[english];
