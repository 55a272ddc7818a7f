import type { ShownFinding, ShownLimit } from '../protocol/shownParts.ts';
import { filled, linkButton, part, partOf, textElement, unbroken } from './parts.ts';

/** What the verdict on the text does when a reader follows it. */
export interface VerdictLinks {
  /** Goes to a place of the text. */
  readonly reveal: (place: string) => void;
  /** Turns to what stands below the drawing. */
  readonly turnTo: (pane: 'limits' | 'findings') => void;
}

/** Shows what is found in the text, and how it stands to its limits: at the top, over the drawing, and in the lists below it. */
export interface Verdict {
  readonly showFindings: (findings: readonly ShownFinding[]) => void;
  readonly showLimits: (limits: readonly ShownLimit[]) => void;
  readonly errors: () => number;
}

/** Connects the page's counts, standing and lists with the text. */
export function controlVerdict({ reveal, turnTo }: VerdictLinks): Verdict {
  let findings: readonly ShownFinding[] = [];
  /** The finding that was gone to last, so that the next click goes to the next one. */
  let last = '';

  const placesOf = (severity: ShownFinding['severity']) =>
    findings.flatMap((each) => (each.severity === severity ? [each.place] : []));
  const goOn = (severity: ShownFinding['severity']) => {
    const places = placesOf(severity);
    turnTo('findings');
    const next = places[(places.indexOf(last) + 1) % places.length];
    if (next === undefined) return;
    last = next;
    reveal(next);
  };
  part('errors').addEventListener('click', () => goOn('error'));
  part('warnings').addEventListener('click', () => goOn('warning'));
  return {
    showFindings: (next) => {
      findings = next;
      showCount('errors', placesOf('error').length);
      showCount('warnings', placesOf('warning').length);
      part('no-findings').hidden = next.length > 0;
      const list = part('findings');
      list.replaceChildren(...next.map((each) => findingItem(each, list, reveal)));
    },
    showLimits: (limits) => {
      showStanding(limits, reveal, () => turnTo('limits'));
      const table = partOf('limits', HTMLTableElement);
      table.hidden = limits.length === 0;
      part('no-limits').hidden = limits.length > 0;
      table.tBodies[0]!.replaceChildren(...limits.map((limit) => limitRow(limit, table, reveal)));
    },
    errors: () => placesOf('error').length,
  };
}

function showCount(name: 'errors' | 'warnings', count: number): void {
  const button = partOf(name, HTMLButtonElement);
  button.textContent = filled(count === 1 ? button.dataset.one : button.dataset.many, count);
  button.classList.toggle('none', count === 0);
}

/** One line: how many limits hold, how many are being computed and which is nearest, or which fail, each by name. */
function showStanding(limits: readonly ShownLimit[], reveal: VerdictLinks['reveal'], open: () => void): void {
  const line = part('standing');
  line.hidden = limits.length === 0;
  const broken = limits.filter(({ state }) => state === 'fails' || state === 'unknown');
  const waiting = limits.filter(({ state }) => state === 'waits').length;
  const { hold, onlyHolds, wait, fail, oneFails, onlyFails, nearest, unknown } = line.dataset;
  const words = (template: string | undefined, count: number) => filled(template, count, limits.length);
  line.classList.toggle('fails', broken.length > 0);
  if (broken.length > 0) {
    const names = broken.map((limit) => {
      // A name may end with a number, `harmonic 5`: its value does not stand right behind it.
      const value = `= ${[limit.value, limit.margin].filter(Boolean).join(', ')}`;
      const words = `${limit.name} ${limit.state === 'unknown' ? (unknown ?? '') : value}`;
      return linkButton(unbroken(words), () => reveal(limit.place));
    });
    const parted = names.flatMap((name, index) =>
      index === 0 ? [name] : [document.createTextNode(' · '), name],
    );
    line.replaceChildren(
      linkButton(
        words(limits.length === 1 ? onlyFails : broken.length === 1 ? oneFails : fail, broken.length),
        open,
      ),
      document.createTextNode(' '),
      ...parted,
    );
    return;
  }
  const first = limits[waiting];
  const told = [
    words(limits.length === 1 && waiting === 0 ? onlyHolds : hold, limits.length - waiting),
    waiting > 0 ? words(wait, waiting) : '',
    first === undefined || first.margin === '' ? '' : filled(nearest, `${first.name}, ${first.margin}`),
  ];
  line.replaceChildren(linkButton(unbroken(told.filter(Boolean).join('; ')), open));
}

function findingItem(
  { severity, message, place }: ShownFinding,
  { dataset }: HTMLElement,
  reveal: VerdictLinks['reveal'],
): HTMLElement {
  const item = document.createElement('li');
  item.className = severity;
  const word = textElement('span', dataset[severity] ?? severity);
  word.className = 'severity';
  item.append(
    word,
    ' ',
    linkButton(unbroken(message), () => reveal(place)),
  );
  return item;
}

function limitRow(
  { name, limit, value, margin, state, place }: ShownLimit,
  { dataset }: HTMLElement,
  reveal: VerdictLinks['reveal'],
): HTMLElement {
  const row = document.createElement('tr');
  row.className = state;
  const head = document.createElement('th');
  head.scope = 'row';
  head.append(linkButton(name, () => reveal(place)));
  row.append(head, ...[limit, value, margin, dataset[state] ?? state].map((cell) => textElement('td', cell)));
  return row;
}
