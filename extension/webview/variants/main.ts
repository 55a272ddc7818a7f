import { mostBeside } from '../../protocol/messages.ts';
import type { ShownVariants } from '../../protocol/shownVariants.ts';
import { filled } from '../parts.ts';
import { createAsked } from './asked.ts';
import { createCompared } from './beside.ts';
import { createCandidate } from './candidate.ts';
import { createChart, legend } from './chart.ts';
import { createChoices } from './choices.ts';
import { element } from './controls.ts';
import { type Look, readLook, type Seen } from './look.ts';
import { createStanding, listedWords } from './standing.ts';
import type { StartVariants } from './tab.ts';
import { createVariantTable } from './table.ts';

const start: StartVariants = (area, words, saved, hooks) => {
  let seen: Seen = { look: readLook(saved), current: 0, beside: [] };
  let shown: ShownVariants | null = null;

  const see = (next: Partial<Seen>) => {
    seen = { ...seen, ...next };
    show();
  };
  const change = (next: Partial<Look>) => {
    const look = { ...seen.look, ...next };
    hooks.changed(look);
    see({ look });
  };
  const look = (number: number) => {
    if (number === seen.current) return;
    see({ current: number });
    table.turnTo(number);
  };
  const toggle = (number: number) => {
    const { beside } = seen;
    const next = beside.includes(number) ? beside.filter((each) => each !== number) : [...beside, number];
    if (next.length > mostBeside) {
      see({ current: number });
      candidate.tell(filled(words.mostBeside, mostBeside));
      return;
    }
    hooks.act('beside', next);
    see({ current: number, beside: next });
  };

  const standing = createStanding(words, (act) => hooks.act(act, []));
  const asked = createAsked(words);
  const choices = createChoices(words, change);
  const chart = createChart(words, { look, toggle });
  const table = createVariantTable(words, { look, toggle, sort: (order) => change({ order }) });
  const candidate = createCandidate(words, (act) =>
    act === 'beside' ? toggle(seen.current) : hooks.act(act, [seen.current]),
  );

  const chartPart = element('section', 'variants-chart-part');
  chartPart.setAttribute('aria-label', words.chart);
  chartPart.append(choices.axes, chart.element, legend(words));
  const listed = element('p', 'variants-quiet');
  const listHead = element('div', 'variants-list-head');
  listHead.append(listed, choices.columns);
  const listPart = element('section', 'variants-list-part');
  listPart.append(listHead, table.element);
  const body = element('div', 'variants-body');
  body.append(chartPart, listPart);
  const compared = createCompared(words, {
    open: (number) => hooks.act('open', [number]),
    take: (number) => hooks.act('take', [number]),
    remove: toggle,
    emptied: () => table.focus(seen.current),
  });
  const above = [standing.acts, standing.stale, standing.missing, asked.element];
  area.replaceChildren(...above, body, candidate.element, compared.element);

  const show = () => {
    if (shown === null) return;
    area.classList.toggle('variants-old', shown.standing.stale);
    for (const part of [body, candidate.element]) part.hidden = shown.rows.length === 0;
    listed.textContent = listedWords(shown, words);
    standing.show(shown.standing);
    choices.show(shown, seen.look);
    for (const part of [asked, chart, table, candidate, compared]) part.show(shown, seen);
  };
  return {
    show: (next) => {
      // Another run counts its candidates anew.
      const begun = next.standing.status === 'running' && shown?.standing.status !== 'running';
      const same = JSON.stringify(next.question?.columns) === JSON.stringify(shown?.question?.columns);
      if (shown === null) seen = { ...seen, beside: next.beside.map(({ number }) => number) };
      else if (begun || !same) seen = { ...seen, current: 0, beside: [] };
      shown = next;
      show();
    },
  };
};

window.slotwrightVariants = start;
