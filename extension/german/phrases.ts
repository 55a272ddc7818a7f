// Some findings carry words of the engine: what is expected, what is missing, titles of corrections. They are made of
// few turns of phrase, which stand here; words of the language itself stay as they are written in a text.

type Turn = readonly [english: RegExp, german: string];

const dimensions: Readonly<Record<string, string>> = {
  length: 'eine Länge',
  angle: 'ein Winkel',
  speed: 'eine Drehzahl',
  frequency: 'eine Frequenz',
  flux: 'ein Fluss',
  'flux density': 'eine Flussdichte',
  resistance: 'ein Widerstand',
  current: 'ein Strom',
  voltage: 'eine Spannung',
  temperature: 'eine Temperatur',
  ratio: 'ein Anteil',
  share: 'ein Anteil',
  conductance: 'ein Leitwert',
  'heat capacity': 'eine Wärmekapazität',
  cooling: 'eine Kühlung',
  inductance: 'eine Induktivität',
  torque: 'ein Drehmoment',
  duration: 'eine Dauer',
  time: 'eine Zeit',
  'current density': 'eine Stromdichte',
  none: 'eine Zahl',
};

const kinds = Object.keys(dimensions).sort((a, b) => b.length - a.length);

/** The dimension of a unit: `Länge`. */
export function dimension(name: string): string {
  return (dimensions[name.replace('-', ' ')] ?? name).replace(/^eine? /, '');
}

const expectations: readonly Turn[] = [
  [
    /\ban odd number from (\S+) to (\S+), or 6 apart an angle/,
    'eine ungerade Zahl von $1 bis $2, oder 6 apart ein Winkel',
  ],
  [/\ban even number from (\S+) to (\S+)/, 'eine gerade Zahl von $1 bis $2'],
  [/\ba whole number from (\S+) to (\S+)/, 'eine ganze Zahl von $1 bis $2'],
  [/\ba whole number\b/, 'eine ganze Zahl'],
  [/\ba number from (\S+) to (\S+)/, 'eine Zahl von $1 bis $2'],
  [/\ba text in quotes\b/, 'ein Text in Anführungszeichen'],
  [/\ba date in quotes\b/, 'ein Datum in Anführungszeichen'],
  [/\ba reason in quotes\b/, 'eine Begründung in Anführungszeichen'],
  [/\ba date as year-month-day, as in (".*")/, 'ein Datum als Jahr-Monat-Tag, wie in $1'],
  [
    /\bthe code of a warning, as it stands in brackets behind it/,
    'der Code einer Warnung, wie er in Klammern hinter ihr steht',
  ],
  [/\ba layer letter\b/, 'der Buchstabe einer Schicht'],
  [/\ba phase name\b/, 'der Name eines Strangs'],
  [/\ba terminal\b/, 'eine Klemme'],
  [/\ba row of places such as \+U or \./, 'eine Zeile von Plätzen, etwa +U oder .'],
  [
    /\ba word of the block whose values vary, as in (.*)/,
    'ein Wort des Blocks, dessen Werte veränderlich sind, wie in $1',
  ],
  [/\ba block and a word of it, as in (.*)/, 'ein Block und ein Wort daraus, wie in $1'],
  [/\bvalues, or the first, to and the last\b/, 'Werte, oder der erste, to und der letzte'],
  [/\ba quantity\b/, 'eine Größe'],
  [/\ba limit such as (.*)/, 'eine Grenze, etwa $1'],
  [/\bpositions and hops such as (.*)/, 'Plätze und Sprünge, etwa $1'],
  [/\ba sheet size from A4 to A0\b/, 'eine Blattgröße von A4 bis A0'],
  [/\bA4, A3, A2, A1 or A0\b/, 'A4, A3, A2, A1 oder A0'],
  [/\ban? number \(/, 'eine Zahl ('],
  [/\ba number and /, 'eine Zahl und '],
  [
    /\bwithout 'in \.\.\. steps' the skew is continuous, and a rotor in one piece without skew has no 'rotor-skew'/,
    "ohne 'in ... steps' ist die Schrägung stetig, und ein Läufer in einem Stück ohne Schrägung hat kein 'rotor-skew'",
  ],
  [/\bthe number of phases\b/, 'die Zahl der Stränge'],
  [/\bthe number of steps\b/, 'die Zahl der Stufen'],
  [/\bthe number of paths\b/, 'die Zahl der Zweige'],
  [/\bthe path number\b/, 'die Nummer des Zweigs'],
  [/\bthe (?:angle|number) after ('.*')/, 'die Angabe nach $1'],
  [/\bthe angle\b/, 'der Winkel'],
  [/\bthe harmonic\b/, 'die Oberwelle'],
  [/\bthe amplitude\b/, 'die Amplitude'],
  [/\bthe order\b/, 'die Ordnung'],
  [/\bthe size\b/, 'die Größe'],
  [/\bthe frequency\b/, 'die Frequenz'],
  [/\bthe deviation\b/, 'die Abweichung'],
  [/\bthe shift\b/, 'die Verschiebung'],
  [/\bthe speed\b/, 'die Drehzahl'],
  [/\bthe torque\b/, 'das Drehmoment'],
  [/\bthe current\b/, 'der Strom'],
  [/\bthe duration\b/, 'die Dauer'],
  [/\ba number\b/, 'eine Zahl'],
];

const bounds: readonly Turn[] = [
  [/^up to (\d+) characters$/, 'bis $1 Zeichen'],
  [/ above (\S+(?: [^\s,]+(?: K\))?)?), up to /, ' über $1, bis '],
  [/ from (-?\S+(?: [^\s,]+)?) to (-?\S+)/, ' von $1 bis $2'],
  [/ above (?=\d)/, ' über '],
  [/ up to (?=\d)/, ' bis '],
];

const joining: readonly Turn[] = [
  [/ or (?='|eine? |der |die |das |[A-Z]\w*$)/g, ' oder '],
  [/, edeg or slot\b/, ', edeg oder slot'],
];

function turned(text: string, turns: readonly Turn[]): string {
  return turns.reduce((words, [english, german]) => words.replace(english, german), text);
}

/** What a value has to be: `a length from 0 mm to 1 m`, in German. */
export function expectation(english: string): string {
  const named = kinds.reduce(
    (words, kind) =>
      words.replace(new RegExp(`\\ban? ${kind}(?= \\(| from| above| up to|$| or )`), dimensions[kind]!),
    turned(english, expectations),
  );
  return turned(turned(named, bounds), joining);
}

const reasons: readonly Turn[] = [
  [/^it needs (.*)$/, 'gebraucht wird $1'],
  [
    /^there is no slot table; the other errors say why$/,
    'es gibt keine Nutentabelle; die anderen Fehler sagen, warum',
  ],
  [/^without current there is no angle$/, 'ohne Strom gibt es keinen Winkel'],
  [/^without current there is no power factor$/, 'ohne Strom gibt es keinen Leistungsfaktor'],
  [/^the winding makes no working wave$/, 'die Wicklung erzeugt keine Arbeitswelle'],
  [/^the phases have no common fundamental$/, 'die Stränge haben keine gemeinsame Grundwelle'],
  [/^the duty has no point (".*")$/, 'das Lastspiel hat keinen Punkt $1'],
  [/^the point does not determine it$/, 'der Punkt bestimmt es nicht'],
  [/^the winding does not determine it$/, 'die Wicklung bestimmt es nicht'],
  [/^its computation failed$/, 'die Berechnung ist gescheitert'],
  [/^it is not defined at order (.*)$/, 'für Ordnung $1 ist es nicht erklärt'],
  [/^the paths are still being found$/, 'die Zweige werden noch gesucht'],
  [/^the written paths have errors$/, 'die geschriebenen Zweige haben Fehler'],
  [
    /^errors in the text may hide how the bars are joined$/,
    'Fehler im Text können verdecken, wie die Stäbe verbunden sind',
  ],
  [/^the check of the paths failed$/, 'die Prüfung der Zweige ist gescheitert'],
  [/^some path has no voltage$/, 'ein Zweig hat keine Spannung'],
  [
    /^the voltage between open phases is not determined$/,
    'die Spannung zwischen offenen Strängen ist nicht bestimmt',
  ],
  [/^paths are found, or written, not both$/, 'Zweige werden gesucht oder geschrieben, nicht beides'],
  [/\bwritten paths\b/g, 'geschriebene Zweige'],
  [/\bpaths \(still being found\)/g, 'Zweige (sie werden noch gesucht)'],
  [/\bpaths \(route paths (\d+) was refused\)/g, 'Zweige (route paths $1 ging nicht)'],
  [/ and (?=')/g, ' und '],
  [/ or (?='|geschriebene)/g, ' oder '],
  [/ with (?=')/g, ' mit '],
];

/** Why something cannot be computed, or what it needs. */
export const reason = (english: string) => turned(english, reasons);

const things: Readonly<Record<string, string>> = {
  'a slot': 'eine Nut',
  'a skew': 'eine Schrägung',
  'a row': 'eine Zeile',
  'both star points': 'beide Sternpunkte',
  'the centers of both deltas': 'die Mitten beider Dreiecke',
  'slot pitch': 'Nutteilung',
  'no-load EMF': 'Leerlauf-EMK',
  'machine voltage': 'Spannung der Maschine',
  starts: 'beginnt',
  ends: 'endet',
  far: 'Gegenseite',
  connection: 'Schaltseite',
  crown: 'die Krone',
  leg: 'der Schenkel',
  bend: 'die Biegung',
  joint: 'die Verbindung',
  straight: 'das gerade Stück',
  lead: 'die Zuleitung',
  slot: 'Nut',
  riser: 'der Steiger',
  arc: 'der Bogen',
};

/** One of few words or short phrases; as it is where it is none of them. */
export const thing = (english: string) => things[english] ?? english;

/** A part of a bar as marks in space name it: `die Krone von 6b`, `der Ring N`, `der Bogen des Stücks 3a–9b`. */
export function barPart(english: string): string {
  const ring = /^the ring (.*)$/.exec(english);
  if (ring) return `der Ring ${ring[1]}`;
  const piece = /^the (\w+) of the piece (.*)$/.exec(english);
  if (piece) return `${thing(piece[1]!)} des Stücks ${piece[2]}`;
  const part = /^the (\w+) of (\d+[a-z])$/.exec(english);
  return part ? `${thing(part[1]!)} von ${part[2]}` : english;
}

const places: readonly Turn[] = [
  [/^neighboring bars of one phase \((.*) and (.*)\)$/, 'benachbarten Stäben eines Strangs ($1 und $2)'],
  [/^bars of two phases in a slot \((.*) and (.*)\)$/, 'Stäben zweier Stränge in einer Nut ($1 und $2)'],
  [/^bar ends of neighboring slots \((.*) and (.*)\)$/, 'Stabenden benachbarter Nuten ($1 und $2)'],
  [/ and /g, ' und '],
  [/\bphase (\S+)/g, 'Strang $1'],
  [/\bpath (\S+ \d+)/g, 'Zweig $1'],
];

/** Bars, paths and phases as findings name them: `path U 2`, `7b and 8c`. */
export const place = (english: string) => turned(english, places);

const titles: readonly Turn[] = [
  [/^Write out the found paths$/, 'Gefundene Zweige ausschreiben'],
  [/^Remove this accept$/, 'Dieses accept entfernen'],
  [/^Write '([^']*)' and '([^']*)'$/, '„$1“ und „$2“ schreiben'],
  [/^Write '(.*)'$/, '„$1“ schreiben'],
  [/^Insert '(.*)'$/, '„$1“ einfügen'],
  [/^Replace by '(.*)'$/, 'Durch „$1“ ersetzen'],
  [
    /^Replace odd blanks, remove invisible characters$/,
    'Ungewöhnliche Leerzeichen ersetzen, unsichtbare Zeichen entfernen',
  ],
  [/^Replace (.*) by a plain blank$/, '$1 durch ein einfaches Leerzeichen ersetzen'],
  [/^Replace (.*) by a plain line end$/, '$1 durch ein einfaches Zeilenende ersetzen'],
  [/^Remove (U\+.*)$/, '$1 entfernen'],
];

/** The title of a correction. */
export const correction = (english: string) => turned(english, titles);

const related: readonly Turn[] = [
  [/^the speed is given here$/, 'die Drehzahl steht hier'],
  [/^first given here$/, 'zuerst hier angegeben'],
  [/^first named here$/, 'zuerst hier genannt'],
  [/^first described here$/, 'zuerst hier beschrieben'],
  [/^first accepted here$/, 'zuerst hier hingenommen'],
  [/^the first stands here$/, 'der erste steht hier'],
  [/^first used here$/, 'zuerst hier benutzt'],
  [/^(\S+) is first used here$/, '$1 wird zuerst hier benutzt'],
  [/^the other one$/, 'das andere'],
  [/^the statement$/, 'die Anweisung'],
  [/^a written path$/, 'ein geschriebener Zweig'],
  [/^a written row$/, 'eine geschriebene Zeile'],
  [/^what lets the core follow$/, 'was den Kern folgen lässt'],
  [/^passed otherwise: (.*)$/, 'anders durchlaufen: $1'],
  [/^the layout has (.*) at (.*)$/, 'die Anordnung hat $1 bei $2'],
  [/^otherwise here too$/, 'auch hier anders'],
  [/^(\S+): no fundamental$/, '$1: keine Grundwelle'],
  [/, no angle$/, ', kein Winkel'],
  [/^path (.*): (\S+) of the mean, (.*)$/, 'Zweig $1: $2 des Mittels, $3'],
];

/** What a further place has to do with a finding. */
export const beside = (english: string) => turned(english, related);
