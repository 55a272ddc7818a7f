/** What the findings of a kind mean, by their code: the German of `help` in the registry of findings. */
export const explanations: Readonly<Record<string, string>> = {
  'accept-code-unknown':
    'Hingenommen werden Warnungen nach ihrem Code; docs/findings.md führt alle auf. Den Code einer Warnung zeigt der Editor in Klammern hinter ihr.',
  'accept-of-error': 'Warnungen lassen sich hinnehmen; ein Fehler muss behoben werden.',
  'accept-repeated': 'Die Warnungen eines Codes werden einmal hingenommen, mit einer Begründung.',
  'accept-unused':
    'Ein accept, dessen Warnung nicht mehr vorkommt, würde die nächste verdecken; es wird herausgenommen.',
  'bar-unused': 'Jeder Stab der Anordnung gehört zu einem Zweig.',
  'bar-used-twice': 'Jeder Stab gehört an genau eine Stelle eines Zweigs.',
  'bare-end-too-long':
    'Der Lack wird im geraden Stück eines Stabendes entfernt, in dem zwei Stäbe verbunden werden, nicht in der Biegung darunter.',
  'bars-do-not-fit':
    'Lackierte Stäbe passen nebeneinander und übereinander in die Nut, abzüglich Nutauskleidung und Keil.',
  'bars-hotter-than-winding':
    'Widerstand und Verluste gelten für die Wicklungstemperatur; stellt sich der heißeste Stab darüber ein, sind sie größer als angegeben.',
  'bend-in-joint': 'Das gerade Stück einer Verbindung enthält die zweite Hälfte der Biegung davor.',
  'bend-in-slot':
    'Ein Stab biegt sich außerhalb des Blechpakets: Sein gerades Stück enthält die erste Hälfte der Biegung, Radius mal Tangens ihres halben Winkels.',
  'bend-radius-too-large': 'Die Biegungen an beiden Enden eines Schenkels passen in ihn.',
  'bend-tight':
    'Hochkant-Biegungen, deren Innenradius kleiner ist als die Breite des Stabs, strecken Lack und Metall stark (übliche Praxis).',
  'bends-cannot-pass':
    'Die gebogenen Enden benachbarter Stäbe kommen innerhalb einer Nutteilung aneinander vorbei: Breite mit Lack und Abstand müssen kleiner sein als sie.',
  'bends-steep':
    'Wo Breite mit Lack und Abstand der Nutteilung nahekommen, stehen die gebogenen Enden steil.',
  'block-missing':
    'Eine Datei braucht machine mit slots, poles und phases, und dazu eine Anordnung oder geschriebene Zweige.',
  'block-not-closed': 'Ein Block endet mit einer schließenden geschweiften Klammer.',
  'block-not-opened': "Auf das Wort eines Blocks folgt '{'.",
  'block-repeated': 'Jeder Block steht höchstens einmal; slot einmal für jede Gruppe von Schichten.',
  'block-unknown':
    'Eine Datei enthält einen Titel winding und die Blöcke machine, slot, bar, insulation, layout, connect, duty, require, vary und sheet.',
  'blocks-too-many': 'Eine Datei enthält höchstens 100 Blöcke.',
  'brace-unexpected': 'Jede schließende geschweifte Klammer schließt einen Block.',
  'character-odd':
    'Außerhalb von Texten in Anführungszeichen und Kommentaren trennen einfache Leerzeichen, Tabulatoren und Zeilenenden die Wörter. Andere Leerzeichen und unsichtbare Zeichen kommen oft mit, wenn Text aus einem Dokument oder einer Seite kopiert wird.',
  'check-crashed':
    'Ein Fehler in Slotwright selbst; die anderen Befunde gelten. Bitte melden Sie ihn zusammen mit der Datei.',
  'connection-missing':
    'Ein Block connect sagt, wie die Stränge verbunden sind: star, star joined, delta oder open.',
  'connection-offered':
    'Wird beim Schreiben gemeldet, wenn mit anderen Maßen eine andere Verschaltung die beste ist: Die früher gefundene bleibt, bis die andere übernommen wird. Überall sonst, wo der Text gelesen wird, ergibt er die andere.',
  'connection-repeated':
    'Ein Block connect enthält genau eines der Wörter star, star joined, delta und open.',
  'copy-onto-paths': 'Ein Strang hat geschriebene Zweige, oder er wird einmal von einem anderen kopiert.',
  'copy-without-paths': 'repeat kopiert die geschriebenen Zweige eines Strangs.',
  'core-held-and-heated':
    'Der Kern wird entweder auf einer Temperatur gehalten oder folgt der Wärme der Stäbe: core-temperature, oder core-heat, core-cooling und coolant-temperature.',
  'corner-too-large': 'Ein Eckenradius ist höchstens halb so groß wie die schmalere Seite des Stabs.',
  'crowns-cross':
    'Starre Hairpins einer Schicht, die übereinander hinweggreifen, müssten durcheinander hindurchgehen.',
  'current-density-high':
    'Von einer gewissen Stromdichte an bleiben selbst Stäbe in Öl nur kurze Zeit kühl (übliche Praxis).',
  'delta-circulation':
    'Oberschwingungen, die in allen Strängen eines Dreiecks gleich sind, treiben einen Strom im Kreis; er ist nicht in den Verlusten.',
  'diameters-disagree':
    'Mit einem Luftspalt auf beiden Seiten folgt der Außendurchmesser aus der Bohrung und den Nuten dazwischen.',
  'duty-point-repeated': 'Die Punkte des Lastspiels haben eigene Namen, damit Grenzen sie nennen können.',
  'ends-close':
    'Lackierte Stabenden einer Schicht halten end-clearance voneinander, Verbindungsstücke und Ringe piece-clearance von allem; Kronen verlassen ihre Schicht und dürfen nur nicht zusammenstoßen.',
  'ends-collide':
    'Lackierte Stabenden, Verbindungsstücke und Ringe gehen nicht durcheinander hindurch; Schichten dürfen sich berühren. Ein Hinweis, wo der Text keinen Biegeradius angibt, weil dann einer angenommen ist.',
  'escape-unknown':
    'In einem Text in Anführungszeichen steht ein umgekehrter Schrägstrich nur vor einem Anführungszeichen oder einem zweiten Schrägstrich.',
  'expansion-too-long': 'Wiederholte Gruppen ergeben in einer Datei höchstens 200 000 Glieder.',
  'file-too-large': 'Eine Datei enthält höchstens 2 MB Text.',
  'fill-too-high':
    'Von einem gewissen Anteil blanker Leiter in der Nut an lassen sich Stäbe kaum ohne Schaden einführen.',
  'findings-too-many': 'Nach 1000 Befunden wird der Rest eines Textes nicht gelesen.',
  'gap-field-high':
    'Die Grundwelle des Flusses ergibt an der Bohrung eine größte Flussdichte; über einem gewissen Wert sättigen die Zähne (übliche Praxis).',
  'gap-lengths': 'Zwei Längen, innen und außen, gibt es für Maschinen mit einem Luftspalt auf beiden Seiten.',
  'group-empty': 'Eine Gruppe in Klammern enthält mindestens einen Platz oder Sprung.',
  'group-not-closed': 'Eine Gruppe in Klammern wird geschlossen, und auf sie folgen * und eine Zahl.',
  'group-without-count': 'Auf eine Gruppe in Klammern folgen * und eine ganze Zahl von 1 bis 2400.',
  'groups-too-deep': 'Gruppen stehen höchstens 8 tief ineinander.',
  'hairpin-legs-differ':
    'Ein Hairpin ist ein Stab mit einem Querschnitt: Schichten, deren Stäbe Kronen verbinden, haben dieselbe Breite und Höhe der Stäbe.',
  'harmonic-cannot-flow':
    'Oberschwingungen, die in allen Strängen gleich sind, fließen nicht von Klemme zu Klemme; in einem Ring von Strängen treibt sie rotor-field.',
  'hold-twofold':
    'Von gap-flux-density und flux, torque und current, Anteilen und Maßen kann nur eines gleich bleiben.',
  'hop-too-long': 'Ein Sprung ist kürzer als eine volle Umdrehung.',
  'insulation-not-checked':
    'Die Spannungen zwischen den Stäben in Volt folgen aus den Zweigen und aus der Bemessungsspannung oder der Leerlauf-EMK; ohne sie wird die Isolation nicht geprüft.',
  'insulation-stressed':
    'Die Spannungen zwischen den Stäben, mal dem Stoßfaktor, bleiben unter dem, was der Block insulation zulässt; Effektivwerte, aus der größeren von Leerlauf-EMK und Bemessungsspannung.',
  'joint-planes-differ':
    'Verbindungen enden so hoch, wie ihre Biegungen es ergeben; mit joint-plane level enden alle einer Seite in einer Ebene, der höchsten.',
  'joint-tips-close':
    'Die Spitzen gebogener Verbindungen liegen in einem Ring: Nachbarn brauchen ihre Breite mit Lack und den Abstand, und weniger als eine Nutteilung ist eng.',
  'joint-without-span': 'Zwei Stäbe einer Nut sind unmittelbar verbunden: Zum Biegen ist kein Platz.',
  'joints-hide-each-other':
    'Verbindungen werden eine nach der anderen gesetzt; ein Ring von Verbindungen, von denen jede die nächste verdeckt, lässt sich nicht setzen.',
  'jumper-levels':
    'Verbindungsstücke, die sich kreuzen, liegen übereinander und machen den Wickelkopf höher.',
  jumpers:
    'Verbindungen, die über Schichten hinweg oder gegen die Neigung reichen, entstehen durch eigene Verbindungsstücke.',
  'keep-without-limits': "'keep limits' übernimmt die Grenzen des Blocks require.",
  'layer-circular': 'Eine abgeleitete Schicht führt zu einer geschriebenen Zeile zurück.',
  'layer-missing': 'Eine Anordnung, die Zeile für Zeile dasteht, beschreibt jede Schicht.',
  'layer-occupation-unequal':
    'Zweige, die die Schichten ungleich belegen, haben ungleiche Nutstreuung und teilen den Strom ungleich.',
  'layer-outside': 'Schichten heißen a, b, c ...; die Anordnung sagt, wie viele es gibt.',
  'layer-repeated': 'Jede Schicht wird einmal beschrieben.',
  'layer-source-missing':
    'Eine verschobene oder negierte Schicht folgt aus einer anderen, die genannt werden muss.',
  'layers-unexpected': 'Nur Blöcke slot nennen vor ihrer Klammer Schichten.',
  'layout-against-paths':
    'Sind eine Anordnung und geschriebene Zweige beide angegeben, stimmen sie Stab für Stab überein.',
  'layout-refused':
    'Eine erzeugte Anordnung muss ausgeglichen sein und sich schließen; sonst wird sie mit dem Grund abgelehnt.',
  'layout-twofold':
    'Eine Anordnung wird aus einem Schritt erzeugt oder Zeile für Zeile geschrieben, nicht beides.',
  'layout-undetermined': 'Eine Anordnung wird aus einem Schritt erzeugt oder Zeile für Zeile geschrieben.',
  'lead-in-inner-layer': 'Zuleitungen kommen nur aus der ersten und der letzten Schicht leicht heraus.',
  'lead-without-place':
    'Zuleitungen, Sternenden und Enden unter Verbindungsstücken sind gebogen wie ihre Schicht und bleiben frei von allen Verbindungsspitzen: bei halbem regelmäßigem Schritt, oder eine halbe Nut mehr oder weniger.',
  'lean-collision':
    'Alle Stabenden einer Schicht neigen sich auf einer Seite gleich; eine Verbindung, die sich dagegen neigt, braucht ein eigenes Verbindungsstück.',
  'lean-differs-in-slot':
    'Verschieden geneigte Schichten können keine gerade Nut teilen; geben Sie jeder Folge gleich geneigter Schichten einen eigenen Block slot.',
  'legs-bent-apart':
    'Die offenen Schenkel einer Schicht bilden einen Ring, der in einem Zug um den regelmäßigen Schritt gebogen wird; ein Schenkel mit einem anderen Schritt wird einzeln gebogen.',
  'legs-cross':
    'Die Schenkel einer Schicht steigen nebeneinander auf. Einer, der hinter einem anderen beginnt und vor ihm endet, läuft durch dessen Verbindung, wenn er nicht darüber hinweggeht. Eine Warnung, wo die Maße für die Höhen nicht angegeben sind.',
  'limit-decides-connection':
    'Eine gefundene Verschaltung, die alle Grenzen einhält, geht einer anderen vor; wegen dieser Grenze wurde eine andere genommen als sonst.',
  'limit-failed':
    'Eine Grenze des Blocks require ist nicht eingehalten. Wo Zweige gefunden werden, steht dabei, warum keine anderen genommen wurden.',
  'limit-not-computable':
    'Eine Grenze, deren Größe sich aus der Datei nicht berechnen lässt, gilt als nicht eingehalten: Was nicht geprüft werden kann, ist nicht bestanden.',
  'no-steady-temperature':
    'Der Widerstand wächst mit der Temperatur; über einem gewissen Verlust findet der Stab zwischen seinen gekühlten Enden keine Beharrungstemperatur.',
  'number-parted': 'Eine Zahl hat vor den Dezimalen einen Punkt und enthält weder Komma noch Leerzeichen.',
  'opening-too-wide':
    'Ein Nutschlitz ist höchstens so breit wie seine Nut und schmaler als die Nutteilung am Luftspalt.',
  'parenthesis-unexpected': 'Jede schließende Klammer schließt eine Gruppe.',
  'path-currents-unequal':
    'Auch Zweige gleicher Spannung teilen die Last ungleich, wo ihr Widerstand, ihre Nutstreuung oder ihr Spaltfeld verschieden ist.',
  'path-end-on-far-side':
    'Ein Hairpin hat beide Enden auf der Schaltseite; ein Zweig, der auf der Gegenseite beginnt oder endet, braucht dort einen einzelnen Stab.',
  'path-end-side': "Ein Zweig, der auf der Gegenseite endet, sagt es mit 'far' hinter seiner Klemme.",
  'path-number-repeated': 'Die Zweige eines Strangs haben verschiedene Nummern.',
  'path-start-unknown': 'Ein Zweig beginnt mit einem Platz, etwa 1a.',
  'paths-unequal-voltage':
    'Parallele Zweige eines Strangs brauchen gleiche Spannungen; sonst fließt zwischen ihnen auch ohne Last ein Kreisstrom.',
  'phase-insulation-needed':
    'Nuten, die zwei Stränge enthalten, brauchen zwischen deren Schichten Phasenisolation.',
  'phase-sides-unequal':
    'Ein Strang braucht gleich viele + Stäbe und - Stäbe, damit sie sich zu Zweigen verbinden lassen und seine Ströme sich zu null ergänzen.',
  'phase-unknown': 'Stränge heißen je nach ihrer Zahl U V W, U V W X Y, A B C ... oder 1U 1V 1W 2U 2V 2W.',
  'phase-voltages-unequal': 'Die Zweige aller Stränge haben auf ihren angegebenen Achsen gleiche Spannungen.',
  'phases-apart-unexpected': 'Nur zwei dreisträngige Sätze (6 Stränge) sind um einen Winkel versetzt.',
  'phases-need-angle':
    'Sechs Stränge sind zwei dreisträngige Sätze; der Winkel zwischen ihnen muss angegeben sein.',
  'phases-unbalanced':
    'Alle Stränge haben auf ihren angegebenen Achsen gleiche Grundwellen, bis auf eine gemeinsame Drehung.',
  'piece-corners-tight':
    'Ein Verbindungsstück biegt aus seinen Steigstücken in sein ebenes Stück ab; beide Ecken müssen zwischen seine Füße passen.',
  'piece-misplaced':
    'Ein | steht zwischen zwei Schritten eines Zweigs und sagt, dass ihre Verbindung ein eigenes Verbindungsstück ist.',
  'pieces-over-gap':
    'Was über dem Luftspalt steht, ist dem Läufer im Weg, wenn er von dieser Seite eingesetzt wird.',
  'pieces-without-room':
    'Verbindungsstücke laufen über ihren Füßen, oder radial daneben in Bahnen, so dass sie an Zuleitungen und anderen Stücken vorbeikommen.',
  'point-out-of-reach': 'Die Spannung lässt jedem Punkt des Lastspiels bei seiner Drehzahl genug Drehmoment.',
  'position-outside': 'Die Nuten sind von 1 bis zur Nutenzahl nummeriert.',
  'radial-step-does-not-fit':
    'Wo ein Stabende seine Schicht wechselt, tragen es zwei Bögen aus der Fläche dorthin; sie liegen innerhalb seines Schenkels.',
  'reason-missing': 'Eine Warnung wird mit einer Begründung hingenommen, die andere lesen.',
  'released-paths-unwritten':
    'Eine andere Version, Grenze oder ein anderes Maß kann für denselben Text andere Zweige finden; in einer freigegebenen Zeichnung müssen sie ausgeschrieben sein.',
  'ring-over-gap':
    'Was über dem Luftspalt steht, ist dem Läufer im Weg, wenn er von dieser Seite eingesetzt wird.',
  'ring-size-missing': 'Ringe haben einen eigenen Querschnitt.',
  'routing-refused':
    'Ausgeglichene parallele Zweige gibt es für einige Zweigzahlen: mit regelmäßigen Kronen, deren Schritt Schichtpaare verbindet, für weniger als mit besonderen Kronen, die `specials` erlaubt. In einer Schicht, und ohne festen Schritt, haben nur geschriebene Zweige Kronen anderer Schritte.',
  'row-length': 'Eine Zeile hat genau einen Platz für jede Nut.',
  'sense-against-layout':
    'Ein Zweig durchläuft + Stäbe von der Schaltseite zur Gegenseite und - Stäbe zurück, wie die Anordnung es sagt.',
  'separator-misplaced':
    'Eine Zwischenlage liegt zwischen zwei benachbarten Schichten ihrer Nut, je eine zwischen zweien.',
  'sets-at-one-potential':
    'Nichts im Text legt zwei getrennte Sterne (oder Dreiecke) gegeneinander fest: Spannungen zwischen ihren Stäben gelten für beide Sternpunkte (oder Mittelpunkte) auf einem Potential.',
  'sheet-notes-long':
    'Die Übergabeblätter drucken 40 000 Zeichen Hinweise; was dahinter kommt, steht nicht darauf.',
  'sheet-text-long': 'Die Felder eines Schriftfelds nach ISO 7200 fassen eine begrenzte Zahl von Zeichen.',
  'slot-layers-missing': 'Wo Blöcke slot ihre Schichten nennen, hat jede Schicht eine Nut.',
  'slot-wider-than-pitch': 'Nuten sind schmaler als die Nutteilung; dazwischen stehen Zähne.',
  'slots-beyond-axis': 'Nuten enden vor der Achse.',
  'special-crowns-taken':
    'Mit regelmäßigen Kronen gibt es keine ausgeglichenen Zweige dieser Zahl, und `specials` ist nicht angegeben; darum liegen besondere Schritte auch in Kronen.',
  'special-joint-on-far-side':
    'Wo besondere Schritte in den verbundenen Schenkeln liegen, ändern Sonderverbindungen auf der Gegenseite die Form von Kronen; mit `specials crowns` oder `either` liegen sie dort mit Absicht.',
  'speed-disagrees': 'Die Frequenz ist Drehzahl mal Polpaare; geben Sie eine von beiden an.',
  'starts-at-mixed-radius':
    'Anfänge eines Strangs in einer Schicht lassen sich leichter an seine Klemme anschließen.',
  'statement-missing': 'Einige Anweisungen sind in ihrem Block notwendig.',
  'statement-repeated': 'Eine Anweisung, die sich nicht wiederholen lässt, steht in ihrem Block einmal.',
  'statements-exclude-each-other':
    'Einige Anweisungen können nicht nebeneinander stehen; eine davon muss weg.',
  'statements-too-many': 'Ein Block enthält höchstens 1000 Anweisungen, connect 40 000.',
  'string-not-closed': 'Ein Text in Anführungszeichen endet auf der Zeile, auf der er beginnt.',
  'terminal-wrong':
    'Ein Zweig läuft von der Leiterklemme seines Strangs zum Sternpunkt, in Dreieck und offenen Wicklungen zur anderen Klemme.',
  'terminals-apart':
    'Liegen die Anfänge aller Zweige nah beieinander, sind die Zuleitungen zu den Klemmen kurz.',
  'text-too-long':
    'Ein Text in Anführungszeichen enthält höchstens 10 000 Zeichen; lange Hinweise werden als mehrere geschrieben.',
  'text-unexpected': 'Eine Anweisung enthält nur die Werte, die ihr Eintrag in der Sprachreferenz zeigt.',
  'title-missing': 'Die erste Zeile gibt der Wicklung einen Namen: winding "Tidal pump stator".',
  'tooth-field-high':
    'Die Zähne sättigen: Das Feld ist schwächer und das Eisen heißer, als lineare Modelle angeben (übliche Praxis).',
  'unbalanced-pull': 'Ohne Drehsymmetrie hebt sich der magnetische Zug am Läufer über der Bohrung nicht auf.',
  'unit-missing': 'Eine Zahl, die etwas misst, trägt nach einem Leerzeichen ihre Einheit.',
  'unit-without-blank': 'Zwischen Zahl und Einheit steht ein Leerzeichen.',
  'unit-wrong': 'Die Einheit muss messen, was die Anweisung verlangt.',
  'value-expected': 'Auf jedes Wort folgen die Werte, die sein Eintrag in der Sprachreferenz zeigt.',
  'value-out-of-range': 'Jeder Wert hat einen Bereich, den die Sprachreferenz zeigt.',
  'vary-counts-differ': "Zeilen, die gemeinsam laufen, verbunden mit 'with', haben gleich viele Werte.",
  'vary-end-missed':
    'Die Schritte einer Zeile sollen ihren letzten Wert treffen, sonst wird er nicht versucht.',
  'vary-layers-differ':
    'Eine Zeile nennt dieselben Schichten wie die Anweisung der Datei, an deren Stelle sie tritt.',
  'vary-opposite-impossible':
    "'with opposite' gibt einem zweiten Wort die negativen Werte des ersten; beide nehmen also Zahlen einer Art, mit beiden Vorzeichen.",
  'vary-order-with-poles':
    'Wo die Pole veränderlich sind, bedeutet eine Ordnung in jeder Variante eine andere Welle; harmonic zählt von der Arbeitswelle aus.',
  'vary-step-wrong':
    'Die Werte von einem ersten zu einem letzten haben gleich lange Schritte und eine Einheit; ganze Zahlen gehen in Schritten von 1, wenn nichts anderes dasteht.',
  'vary-word-repeated': 'Ein Wort hat seine Werte aus einer Zeile.',
  'vary-written':
    'Zeilen und Zweige, die ausgeschrieben sind, gelten nur für eine Zahl von Nuten, Polen und Schichten; was veränderlich ist, muss erzeugt oder gefunden werden.',
  'voltage-below-emf':
    'Die EMK zwischen den Leitern liegt bei Bemessungsdrehzahl über der Spannung: Ohne Feldschwächung speist die Maschine Strom in ihre Versorgung zurück.',
  'voltage-in-slot-high':
    'Benachbarte Stäbe eines Strangs in einer Nut, zwischen denen ein großer Teil der Strangspannung steht, brauchen Isolation dafür.',
  'voltage-too-low':
    'Bei Bemessungsstrom, Winkel und Drehzahl braucht die Maschine zwischen ihren Leitern mehr Spannung, als der Text angibt. Eine Warnung, wo der Strom bei einem anderen Winkel passt und keiner dasteht.',
  'word-repeated':
    'Was eine Anweisung mit Wörtern aufzählt, etwa die Wünsche eines route, nennt sie je einmal.',
  'word-unknown': 'Jeder Block hat seine eigenen Wörter; die Sprachreferenz führt sie auf.',
  'yoke-field-high':
    'Das Joch sättigt: Das Feld ist schwächer und das Eisen heißer, als lineare Modelle angeben (übliche Praxis).',
};
