/** The summary of the demonstration, for a reader who has never seen a winding file. */
export function demoSummary(examples, checked) {
  const sound = examples.filter((example) => !isBrokenOnPurpose(example));
  const broken = examples.filter(isBrokenOnPurpose);
  const lines = [
    `Slotwright read ${examples.length} winding files, checked them, computed them and drew them.`,
    '',
    ...sound.flatMap(soundLines),
    ...broken.flatMap(brokenLines),
    `Checked: ${checked.files.length} files, ${checked.errors} errors, ${checked.warnings} warnings.`,
    'Reports, drawings, handover sheets, lists and a comparison are in out/; out/index.html shows them in order.',
  ];
  return lines.join('\n');
}

/** The sources that have errors although their name does not begin with `broken-`. */
export function unexpectedErrors(examples) {
  const wrong = examples.filter(
    (example) => !isBrokenOnPurpose(example) && errorsOf(example.report).length > 0,
  );
  return wrong.map(({ source }) => source);
}

/** Whether the mistakes of an example are what it is there for. */
export const isBrokenOnPurpose = ({ source }) => source.startsWith('examples/broken-');

/** The errors among the findings of a report. */
export const errorsOf = (report) => report.findings.filter(({ severity }) => severity === 'error');

const percent = (fraction) => `${(fraction * 100).toFixed(2)} %`;

function soundLines({ source, report, drawn }) {
  const { slots, poles, phases, layers } = report.winding ?? {};
  const working = (report.factors ?? []).find(({ harmonic }) => harmonic === '1');
  const leakage = report.mmf?.differentialLeakage;
  const figures = [
    working ? `winding factor ${working.winding.toFixed(4)}` : null,
    typeof leakage === 'number' ? `differential leakage ${percent(leakage)}` : null,
    limitsText(report.limits ?? []),
    errorsText(errorsOf(report).length),
  ];
  return [
    `${report.title}  (${source}${drawn ? '' : ', not drawn'})`,
    slots === undefined
      ? '  no winding could be made of it'
      : `  ${slots} slots, ${poles} poles, ${phases} phases, ${layers} ${layers === 1 ? 'layer' : 'layers'}`,
    `  ${figures.filter((text) => text !== null).join(', ')}`,
    '',
  ];
}

function limitsText(limits) {
  if (limits.length === 0) return null;
  return `${limits.filter(({ met }) => met === true).length} of ${limits.length} limits met`;
}

function errorsText(count) {
  if (count === 0) return null;
  return count === 1 ? '1 error' : `${count} errors`;
}

function brokenLines({ source, report }) {
  const errors = errorsOf(report);
  return [
    `${report.title}  (${source})`,
    `  broken on purpose, to show what Slotwright finds: ${errorsText(errors.length) ?? 'nothing'}`,
    ...errors.map(({ range, message }) => `  line ${range.start.line}: ${message}`),
    '',
  ];
}
