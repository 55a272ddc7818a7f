import { mostBeside } from '../../protocol/messages.ts';
import type { ShownVariants } from '../../protocol/shownVariants.ts';
import { fillChoices, filled, textElement } from '../parts.ts';
import { besideTable } from './beside.ts';
import { createChart, legend } from './chart.ts';
import { axesOf, columnTitle, type Look, readLook } from './look.ts';
import type { StartVariants } from './tab.ts';
import { createVariantTable } from './table.ts';

const start: StartVariants = (area, words, saved, hooks) => {
  let look: Look = readLook(saved);
  let shown: ShownVariants | null = null;
  let current = 0;
  let beside: readonly number[] = [];
  let told = '';
  let listKey = '';

  const acts = element('div', 'variants-acts');
  const run = button(words.run, () => hooks.act('run', []));
  run.classList.add('variants-main');
  const cancel = button(words.cancel, () => hooks.act('cancel', []));
  const vary = button(words.vary, () => hooks.act('vary', []));
  const standing = element('p', 'variants-standing');
  const heard = element('p', 'unseen');
  heard.setAttribute('role', 'status');
  acts.append(run, cancel, vary, standing, heard);
  const stale = element('p', 'variants-stale');
  stale.textContent = words.stale;
  const asked = document.createElement('details');
  asked.className = 'variants-asked';
  const askedList = document.createElement('ul');
  asked.append(textElement('summary', words.asked), askedList);

  const across = choice(words.across, (name) => change({ across: name }));
  const upwards = choice(words.upwards, (name) => change({ upwards: name }));
  const columns = document.createElement('details');
  columns.className = 'variants-columns';
  const columnList = element('div', 'variants-column-list');
  columns.append(textElement('summary', words.columns), columnList);
  columns.addEventListener('keydown', ({ key }) => {
    if (key !== 'Escape') return;
    columns.open = false;
    columns.querySelector('summary')?.focus();
  });

  const change = (next: Partial<Look>) => {
    look = { ...look, ...next };
    hooks.changed(look);
    show();
  };
  const lookAt = (number: number) => {
    if (number === current) return;
    current = number;
    show();
    table.turnTo(number);
  };
  const toggle = (number: number) => {
    const next = beside.includes(number) ? beside.filter((each) => each !== number) : [...beside, number];
    current = number;
    if (next.length > mostBeside) {
      heard.textContent = filled(words.mostBeside, mostBeside);
      line.textContent = heard.textContent;
      show();
      line.textContent = heard.textContent;
      return;
    }
    beside = next;
    hooks.act('beside', beside);
    show();
  };
  const chart = createChart(words, { look: lookAt, toggle });
  const table = createVariantTable(words, {
    look: lookAt,
    toggle,
    sort: (order) => change({ order }),
  });
  const line = element('p', 'variants-line');
  line.setAttribute('role', 'status');
  const ofCurrent = element('div', 'variants-acts');
  const open = button(words.open, () => hooks.act('open', [current]));
  const take = button(words.take, () => hooks.act('take', [current]));
  const put = button(words.putBeside, () => toggle(current));
  ofCurrent.append(line, put, open, take);
  const axes = element('div', 'variants-axes');
  axes.append(across.element, upwards.element);
  const chartPart = element('section', 'variants-chart-part');
  chartPart.setAttribute('aria-label', words.chart);
  chartPart.append(axes, chart.element, legend(words));
  const listPart = element('section', 'variants-list-part');
  const listHead = element('div', 'variants-list-head');
  const listed = element('p', 'variants-quiet');
  listHead.append(listed, columns);
  listPart.append(listHead, table.element);
  const body = element('div', 'variants-body');
  body.append(chartPart, listPart);
  const compared = element('section', 'variants-beside-part');
  compared.setAttribute('aria-label', words.sideBySide);
  area.replaceChildren(acts, stale, asked, body, ofCurrent, compared);

  const showStanding = ({ standing: now, rows }: ShownVariants) => {
    const { status, candidates, judged, kept, leftOut, refused, trouble, inText } = now;
    const refusals = refused.reduce((sum, [, count]) => sum + count, 0);
    const counts = [judged, candidates, kept, refusals, leftOut] as const;
    const sentence =
      status === 'none'
        ? words.none
        : status === 'faulty'
          ? filled(words.faulty, trouble)
          : status === 'ready'
            ? filled(words.ready, candidates)
            : status === 'done'
              ? filled(words.done, candidates, candidates, kept, refusals, leftOut)
              : filled(status === 'running' ? words.running : words.stopped, ...counts);
    const extra = [
      ...(status === 'done' && kept === 0 ? [words.nothingKept] : []),
      ...(status !== 'faulty' && trouble !== '' ? [trouble] : []),
      ...(inText > 0 ? [filled(words.inText, inText)] : []),
    ];
    standing.textContent = [sentence, ...extra].join(' ');
    // Numbers that run are not read out; beginning and end are.
    const state = `${status} ${now.stale} ${inText} ${trouble}`;
    if (state !== told) heard.textContent = `${standing.textContent} ${now.stale ? words.stale : ''}`;
    told = state;
    const ran = ['done', 'stopped', 'running'].includes(status);
    run.hidden = status === 'none' || status === 'faulty' || status === 'running';
    run.textContent = ran ? words.runAgain : words.run;
    cancel.hidden = status !== 'running';
    vary.hidden = status !== 'none';
    stale.hidden = !now.stale;
    area.classList.toggle('variants-old', now.stale);
    for (const part of [body, ofCurrent]) part.hidden = rows.length === 0;
    const front = now.front;
    listed.textContent =
      front === null
        ? filled(words.listed, rows.length, kept)
        : filled(words.listedFront, rows.length, kept, front);
  };
  const showAsked = ({ question, standing: now }: ShownVariants) => {
    asked.hidden = question === null;
    if (question === null) return;
    const { held, unsettled, kept, ranked } = question;
    const texts = [
      filled(words.held, held),
      ...unsettled.map((what) => filled(words.unsettled, what)),
      ...(kept.length > 0 ? [filled(words.kept, kept.join('; '))] : []),
      ranked.length > 0 ? filled(words.ranked, ranked.join(words.thenRank)) : words.notRanked,
      ...now.refused.map(([why, count]) => filled(words.refused, count, why)),
    ];
    const key = JSON.stringify(texts);
    if (askedList.dataset.key === key) return;
    askedList.dataset.key = key;
    askedList.replaceChildren(...texts.map((text) => textElement('li', text)));
  };
  const showChoices = ({ question, own, rows }: ShownVariants) => {
    if (question === null) return;
    const titles = question.columns.map((column) => ({ value: column.name, text: columnTitle(column) }));
    const { x, y } = axesOf(question, look, { rows });
    fillChoices(across.select, titles, question.columns[x]?.name ?? '');
    fillChoices(upwards.select, titles, question.columns[y]?.name ?? '');
    const entries = [
      ...question.columns.map((column) => ({ name: column.name, text: column.name })),
      ...(question.limits.length > 0 ? [{ name: 'limits', text: words.limits }] : []),
    ];
    const key = JSON.stringify([entries, own !== null]);
    if (key !== listKey) {
      listKey = key;
      columnList.replaceChildren(
        ...entries.map(({ name, text }) =>
          checkbox(text, !look.hidden.includes(name), (on) =>
            change({ hidden: on ? look.hidden.filter((each) => each !== name) : [...look.hidden, name] }),
          ),
        ),
        ...(own ? [checkbox(words.differences, look.differences, (on) => change({ differences: on }))] : []),
      );
    }
  };
  const showCurrent = ({ rows, question }: ShownVariants) => {
    const row = rows.find(({ number }) => number === current);
    for (const each of [open, take, put]) each.disabled = current === 0;
    put.textContent = beside.includes(current) ? words.takeAway : words.putBeside;
    put.setAttribute('aria-pressed', String(beside.includes(current)));
    const text =
      current === 0
        ? words.nothingChosen
        : `${filled(words.candidate, current)}${
            row && question
              ? `: ${question.columns.map(({ name }, index) => `${name} ${row.texts[index]}`).join(', ')}${row.front ? `, ${words.front}` : ''}`
              : ''
          }`;
    if (line.textContent !== text) line.textContent = text;
  };
  const show = () => {
    if (shown === null) return;
    showStanding(shown);
    showAsked(shown);
    showChoices(shown);
    if (shown.question !== null) chart.show(shown, axesOf(shown.question, look, shown), current, beside);
    table.show(shown, look, current, beside);
    showCurrent(shown);
    compared.hidden = shown.beside.length === 0;
    compared.replaceChildren(
      ...(shown.beside.length === 0
        ? []
        : [
            textElement('h2', words.sideBySide),
            besideTable(shown, words, {
              open: (number) => hooks.act('open', [number]),
              take: (number) => hooks.act('take', [number]),
              remove: toggle,
            }),
          ]),
    );
  };
  return {
    show: (next) => {
      // Another run counts its candidates anew.
      const begun = next.standing.status === 'running' && shown?.standing.status !== 'running';
      const same = JSON.stringify(next.question?.columns) === JSON.stringify(shown?.question?.columns);
      if (shown !== null && (begun || !same)) {
        current = 0;
        beside = [];
      }
      if (shown === null) beside = next.beside.map(({ number }) => number);
      shown = next;
      show();
    },
  };
};

function element(tag: string, name: string): HTMLElement {
  const made = document.createElement(tag);
  made.className = name;
  return made;
}

function button(words: string, act: () => void): HTMLButtonElement {
  const made = document.createElement('button');
  made.type = 'button';
  made.textContent = words;
  made.addEventListener('click', act);
  return made;
}

function choice(words: string, chosen: (value: string) => void) {
  const label = document.createElement('label');
  const select = document.createElement('select');
  select.addEventListener('change', () => chosen(select.value));
  label.append(`${words} `, select);
  return { element: label, select };
}

function checkbox(words: string, on: boolean, turned: (on: boolean) => void): HTMLElement {
  const label = document.createElement('label');
  const box = document.createElement('input');
  box.type = 'checkbox';
  box.checked = on;
  box.addEventListener('change', () => turned(box.checked));
  label.append(box, ` ${words}`);
  return label;
}

window.slotwrightVariants = start;
