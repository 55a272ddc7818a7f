// Makes the pictures of the walkthrough: small SVG in the colors of the editor's theme.

const width = 480;
const height = 300;
const ink = 'var(--vscode-editor-foreground)';
const quiet = 'var(--vscode-descriptionForeground)';
const accents = ['var(--vscode-charts-blue)', 'var(--vscode-charts-orange)', 'var(--vscode-charts-green)'];
// Phases are told apart without their colors too.
const dashes = ['', ' stroke-dasharray="7 3"', ' stroke-dasharray="2 3"'];

function picture(content) {
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" font-family="var(--monaco-monospace-font, monospace)" font-size="14">
${content.join('\n')}
</svg>
`;
}

function text(x, y, words, fill = ink, more = '') {
  return `<text x="${x}" y="${y}" fill="${fill}"${more}>${words}</text>`;
}

function frame(x, y, w, h) {
  return `<rect x="${x}" y="${y}" width="${w}" height="${h}" rx="6" fill="none" stroke="${quiet}"/>`;
}

/** Lines of a winding text, each as words with the accent of the number behind them. */
function lines(x, y, rows) {
  return rows.map(([word, value = ''], index) => {
    const at = y + 24 * index;
    return `${text(x, at, word)}${value === '' ? '' : text(x + 110, at, value, accents[0])}`;
  });
}

/** The developed winding of 12 slots and 4 poles with full pitch: bars, and the crowns that join them. */
function developed(x, y, pitch, length) {
  const parts = [];
  const phases = [0, 2, 1];
  for (let slot = 0; slot < 12; slot++) {
    const phase = phases[slot % 3];
    const stroke = `stroke="${accents[phase]}" fill="none" stroke-width="2"${dashes[phase]}`;
    const left = x + slot * pitch;
    const end = left + 3 * pitch;
    const middle = (left + end) / 2;
    parts.push(
      `<path d="M${left} ${y}V${y + length}L${middle} ${y + length + 34}L${end} ${y + length}" ${stroke}/>`,
    );
    if (slot % 2 === 0) parts.push(`<path d="M${left} ${y}L${middle} ${y - 34}L${end} ${y}" ${stroke}/>`);
  }
  return parts;
}

function begin() {
  return picture([
    frame(60, 40, 360, 220),
    text(84, 76, 'winding', accents[2]),
    text(160, 76, '"Tidal pump"'),
    text(84, 112, 'machine {'),
    ...lines(104, 136, [
      ['slots', '48'],
      ['poles', '8'],
      ['phases', '3'],
    ]),
    text(84, 208, '}'),
    text(244, 136, '2 a pole and phase', quiet),
  ]);
}

function see() {
  return picture([...developed(64, 90, 24, 110), text(64, 275, '12 slots, 4 poles, U V W', quiet)]);
}

/** The figures are those of 48 slots, 8 poles, two layers. */
function ask() {
  const row = (y, cells, fill = ink) => cells.map((cell, index) => text(70 + index * 98, y, cell, fill));
  return picture([
    frame(50, 50, 390, 200),
    ...row(86, ['one step', '4', '5', '6'], quiet),
    `<path d="M66 98H424" stroke="${quiet}"/>`,
    ...row(126, ['factor', '0.837', '0.933', '0.966']),
    ...row(156, ['leakage', '2.84 %', '2.35 %', '2.84 %']),
    ...row(186, ['5th wave', '5.36 %', '1.44 %', '5.36 %']),
    `<rect x="256" y="66" width="76" height="132" rx="4" fill="none" stroke="${accents[0]}" stroke-width="2"/>`,
    text(70, 230, 'span 5', accents[0]),
  ]);
}

function connect() {
  const stops = [
    [80, 'U1'],
    [170, '1a'],
    [250, '7b'],
    [330, '13a'],
    [410, 'N'],
  ];
  return picture([
    ...stops.slice(1).map(([x], index) => {
      const from = stops[index][0];
      const bend = index % 2 === 0 ? 90 : 200;
      return `<path d="M${from} 150Q${(from + x) / 2} ${bend} ${x} 150" fill="none" stroke="${accents[0]}" stroke-width="2"/>`;
    }),
    ...stops.map(([x]) => `<circle cx="${x}" cy="150" r="5" fill="${accents[0]}"/>`),
    ...stops.map(([x, name]) => text(x, 180, name, ink, ' text-anchor="middle"')),
    text(80, 240, 'route paths 2'),
    text(80, 264, 'found, proved balanced', quiet),
  ]);
}

function limit() {
  const bar = (y, { name, share, holds }) => [
    text(60, y, `${holds ? '✓' : '✗'} ${name}`),
    `<rect x="60" y="${y + 10}" width="360" height="12" rx="3" fill="none" stroke="${quiet}"/>`,
    `<rect x="60" y="${y + 10}" width="${360 * share}" height="12" rx="3" fill="${holds ? accents[2] : accents[1]}"/>`,
  ];
  return picture([
    ...bar(70, { name: 'winding-factor &gt;= 0.93', share: 0.82, holds: true }),
    ...bar(140, { name: 'differential-leakage &lt;= 3.5 %', share: 0.66, holds: true }),
    ...bar(210, { name: 'slot-fill &lt;= 78 %', share: 1, holds: false }),
  ]);
}

function handOver() {
  return picture([
    frame(70, 40, 340, 220),
    ...developed(100, 96, 12, 50),
    `<path d="M70 220H410M250 220V260M330 220V260" fill="none" stroke="${quiet}"/>`,
    text(84, 246, 'Tidal pump'),
    text(262, 246, 'Rev. A', quiet),
    text(342, 246, '1 of 9', quiet),
    ...[90, 114, 138, 162].map((y) => `<path d="M290 ${y}H392" stroke="${quiet}"/>`),
  ]);
}

/** Every picture by its name in media/walkthrough. */
export function walkthroughPictures() {
  return {
    'begin.svg': begin(),
    'see.svg': see(),
    'ask.svg': ask(),
    'connect.svg': connect(),
    'limit.svg': limit(),
    'hand-over.svg': handOver(),
  };
}
