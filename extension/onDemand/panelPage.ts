import { panelTables, panelViews } from '../wish.ts';

/** The page's addresses and its own words, in the reader's language. */
export interface PageParts {
  readonly nonce: string;
  readonly script: string;
  readonly style: string;
  readonly words: PageWords;
}

/** Every fixed word on the page; the lists in the order of factorColumns, panelViews and panelTables. */
export interface PageWords {
  readonly language: string;
  readonly title: string;
  readonly waiting: string;
  readonly tools: string;
  readonly fit: string;
  readonly zoomIn: string;
  readonly zoomOut: string;
  readonly views: string;
  readonly phase: string;
  readonly allPhases: string;
  readonly path: string;
  readonly allPaths: string;
  readonly layer: string;
  readonly allLayers: string;
  readonly side: string;
  readonly bothSides: string;
  readonly connectionSide: string;
  readonly farSide: string;
  readonly search: string;
  readonly searchHint: string;
  readonly notFound: string;
  readonly wholeCircle: string;
  readonly instant: string;
  readonly play: string;
  readonly pause: string;
  readonly table: string;
  readonly copy: string;
  readonly copied: string;
  readonly drawing: string;
  readonly drawingKeys: string;
  readonly figures: string;
  readonly factors: string;
  readonly columns: readonly string[];
  readonly tabs: readonly string[];
  readonly tables: readonly string[];
}

/**
 * The panel's page. It loads one script and one style sheet, both by nonce, and nothing else; all that depends on
 * the winding arrives by message. The page's ids begin with `panel-`; the picture has its own.
 */
export function panelPage({ nonce, script, style, words }: PageParts): string {
  const w = escaped(words);
  return `<!DOCTYPE html>
<html lang="${w.language}">
<head>
${pageHead(nonce, style, w.title)}
</head>
<body>
<header>
<h1><span id="panel-title" data-words="${w.title}">${w.title}</span> <span id="panel-file"></span></h1>
<span id="panel-stamp"></span>
</header>
<p id="panel-waiting" role="status">${w.waiting}</p>
<main id="panel-content" hidden>
<div id="panel-tabs" role="tablist" aria-label="${w.views}">${panelViews.map((view, index) => tab(view, w.tabs[index] ?? view)).join('')}</div>
<div id="panel-sheet" role="tabpanel" aria-labelledby="panel-tab-layout">
<div id="panel-tools">
<span data-for="layout section phasors"><label for="panel-phase">${w.phase}</label> <select id="panel-phase" data-all="${w.allPhases}"></select></span>
<span data-for="layout section phasors"><label for="panel-path">${w.path}</label> <select id="panel-path" data-all="${w.allPaths}"></select></span>
<span data-for="layout section"><label for="panel-layer">${w.layer}</label> <select id="panel-layer" data-all="${w.allLayers}"></select></span>
<span data-for="layout"><label for="panel-side">${w.side}</label> <select id="panel-side"><option value="">${w.bothSides}</option><option value="connection">${w.connectionSide}</option><option value="far">${w.farSide}</option></select></span>
<form data-for="layout section" id="panel-search-form"><label for="panel-search">${w.search}</label> <input type="search" id="panel-search" size="6" maxlength="12" autocomplete="off" spellcheck="false" placeholder="7b" title="${w.searchHint}"> </form>
<label data-for="section"><input type="checkbox" id="panel-circle"> ${w.wholeCircle}</label>
<span data-for="field"><label for="panel-instant">${w.instant}</label> <input type="range" id="panel-instant" min="0" max="355" step="5" value="0"> <output id="panel-instant-value" for="panel-instant">0°</output> <button type="button" id="panel-play" data-play="${w.play}" data-pause="${w.pause}">${w.play}</button></span>
<span data-for="tables"><label for="panel-table-choice">${w.table}</label> <select id="panel-table-choice">${panelTables.map((name, index) => `<option value="${name}">${w.tables[index] ?? name}</option>`).join('')}</select> <button type="button" id="panel-copy">${w.copy}</button> <span id="panel-copied" role="status" data-words="${w.copied}"></span></span>
<div role="toolbar" data-for="layout section phasors field copper" aria-label="${w.tools}" aria-controls="panel-area">
<button type="button" id="panel-fit" aria-keyshortcuts="0">${w.fit}</button>
<button type="button" id="panel-zoom-out" aria-keyshortcuts="-" aria-label="${w.zoomOut}" title="${w.zoomOut}">&minus;</button>
<button type="button" id="panel-zoom-in" aria-keyshortcuts="+" aria-label="${w.zoomIn}" title="${w.zoomIn}">+</button>
</div>
</div>
<section id="panel-area" class="area" tabindex="0" aria-label="${w.drawing}" aria-describedby="panel-description panel-keys"><div id="panel-drawing" class="drawing"></div></section>
<p id="panel-description" class="unseen"></p>
<p id="panel-keys" class="unseen">${w.drawingKeys}</p>
<p id="panel-line"><span id="panel-search-result" role="status" data-words="${w.notFound}"></span> <span id="panel-chosen" role="status"></span><span id="panel-pointed" aria-hidden="true"></span></p>
<section id="panel-table-area" aria-labelledby="panel-table-title" hidden><h2 id="panel-table-title"></h2>
<div class="scroll" tabindex="0" role="region" aria-labelledby="panel-table-title"><table id="panel-table"></table></div></section>
</div>
<section aria-labelledby="panel-figures-title"><h2 id="panel-figures-title">${w.figures}</h2><dl id="panel-figures"></dl></section>
<section aria-labelledby="panel-factors-title"><h2 id="panel-factors-title">${w.factors}</h2>
<div class="scroll" tabindex="0" role="region" aria-labelledby="panel-factors-title"><table id="panel-factors">
<thead><tr>${w.columns.map((column) => `<th scope="col">${column}</th>`).join('')}</tr></thead>
<tbody></tbody></table></div></section>
</main>
<footer id="panel-notice" role="status" hidden><p id="panel-headline"></p><ul id="panel-places"></ul></footer>
<script nonce="${nonce}" src="${escapeHtml(script)}"></script>
</body>
</html>`;
}

/** The inside of a page's head: its policy, title and style sheet. `title` is escaped already. */
export function pageHead(nonce: string, style: string, title: string): string {
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'; img-src data:`;
  return `<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${title}</title>
<link rel="stylesheet" nonce="${nonce}" href="${escapeHtml(style)}">`;
}

function tab(view: string, title: string): string {
  const first = view === 'layout';
  return `<button type="button" role="tab" id="panel-tab-${view}" data-view="${view}" aria-controls="panel-sheet" aria-selected="${first}" tabindex="${first ? 0 : -1}">${title}</button>`;
}

function escaped(words: PageWords): PageWords {
  const { columns, tabs, tables, ...texts } = words;
  const entries = Object.entries(texts).map(([name, text]) => [name, escapeHtml(text)]);
  return {
    ...(Object.fromEntries(entries) as Omit<PageWords, 'columns' | 'tabs' | 'tables'>),
    columns: columns.map(escapeHtml),
    tabs: tabs.map(escapeHtml),
    tables: tables.map(escapeHtml),
  };
}

/** Text that is safe in the content of an element and in a quoted attribute. */
export function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}
