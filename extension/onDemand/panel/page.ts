import { baselines } from '../../protocol/shownParts.ts';
import { panelPanes, panelTables, panelViews } from '../../protocol/wish.ts';
import { escapeHtml, type PageFiles, pageHead } from '../page.ts';

/** What the page loads, and its own words in the reader's language. */
export interface PanelPageParts extends PageFiles {
  readonly words: PageWords;
  /** The lower part's share of the height, where the reader has put the divider. */
  readonly lower?: number | undefined;
}

/** Every fixed word on the page; the lists in the order of factorColumns, panelViews, panelTables and panelPanes. */
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
  /** `All {0}`, and what there may be all of. */
  readonly all: string;
  readonly phases: string;
  readonly paths: string;
  readonly layers: string;
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
  readonly onePart: string;
  readonly instant: string;
  readonly play: string;
  readonly pause: string;
  readonly table: string;
  readonly copy: string;
  readonly copied: string;
  readonly drawing: string;
  readonly drawingKeys: string;
  /** The bars in space that can be turned, how, and why there is only a picture of them. */
  readonly liveDrawing: string;
  readonly liveKeys: string;
  readonly liveMissing: string;
  readonly liveLost: string;
  readonly liveFailed: string;
  readonly opened: string;
  /** `Layers a to {0}`. */
  readonly layersLeft: string;
  readonly coloring: string;
  /** The variants of the text: their part of the page, why it is empty, and all words of it as JSON. */
  readonly variants: string;
  readonly variantsFailed: string;
  readonly variantsWords: string;
  readonly figures: string;
  readonly factors: string;
  readonly moreViews: string;
  readonly acts: string;
  readonly copyPicture: string;
  readonly pictureCopied: string;
  readonly pictureRefused: string;
  readonly exportDrawing: string;
  readonly choices: string;
  /** What changed while typing; the baselines in their order. */
  readonly against: string;
  readonly baselines: readonly string[];
  readonly keepState: string;
  readonly changesOff: string;
  /** What stands in the place of notes where there are none. */
  readonly notesNone: string;
  readonly changeColumns: readonly string[];
  /** Drawing paths by hand. */
  readonly byHand: string;
  readonly drawByHand: string;
  readonly beginByHand: string;
  readonly drawPath: string;
  readonly drawPhase: string;
  readonly changeJoint: string;
  readonly takeBar: string;
  readonly stepBack: string;
  readonly endPath: string;
  readonly freeOthers: string;
  readonly leaveDrawing: string;
  readonly handKeys: string;
  readonly close: string;
  readonly overview: string;
  readonly divider: string;
  readonly lower: string;
  readonly goTo: string;
  /** Counts and sentences with {0} and {1} for what the page puts in. */
  readonly oneError: string;
  readonly manyErrors: string;
  readonly oneWarning: string;
  readonly manyWarnings: string;
  readonly oneErrorStamp: string;
  readonly manyErrorsStamp: string;
  readonly limitsHold: string;
  readonly onlyLimitHolds: string;
  readonly onlyLimitFails: string;
  readonly limitsWait: string;
  readonly limitsFail: string;
  readonly oneLimitFails: string;
  readonly nearest: string;
  readonly notComputed: string;
  readonly noLimits: string;
  readonly noFindings: string;
  readonly fails: string;
  readonly holds: string;
  readonly unknown: string;
  readonly waits: string;
  readonly error: string;
  readonly warning: string;
  readonly info: string;
  readonly columns: readonly string[];
  readonly tabs: readonly string[];
  readonly tables: readonly string[];
  readonly panes: readonly string[];
  readonly limitColumns: readonly string[];
  readonly connectionColumns: readonly string[];
  readonly connectionsAbout: string;
  readonly connectionsNone: string;
  readonly connectionsWritten: string;
  readonly connectionsSearching: string;
  readonly connectionsAlone: string;
  /** With {0} for its number. */
  readonly drawConnection: string;
  readonly writeConnection: string;
}

/** The views that are pictures, as their tools are told which views they are for. */
const pictureViews = panelViews.filter((view) => view !== 'tables' && view !== 'variants').join(' ');

/**
 * The panel's page. It loads one script and one style sheet, both by nonce, and nothing else; all that depends on
 * the winding arrives by message. The page's ids begin with `panel-`; the picture has its own.
 */
export function panelPage(parts: PanelPageParts): string {
  const { nonce, script, liveScript, variantsScript, laterScript, style, words, lower } = parts;
  const w = escaped(words);
  return `<!DOCTYPE html>
<html lang="${w.language}">
<head>
${pageHead(nonce, style, w.title)}
</head>
<body>
<header>
<h1><span id="panel-title" data-words="${w.title}">${w.title}</span> <span id="panel-file"></span></h1>
<p id="panel-verdict" hidden><button type="button" class="link" id="panel-errors" data-one="${w.oneError}" data-many="${w.manyErrors}"></button> · <button type="button" class="link" id="panel-warnings" data-one="${w.oneWarning}" data-many="${w.manyWarnings}"></button></p>
<p id="panel-standing" hidden data-hold="${w.limitsHold}" data-only-holds="${w.onlyLimitHolds}" data-only-fails="${w.onlyLimitFails}" data-wait="${w.limitsWait}" data-fail="${w.limitsFail}" data-one-fails="${w.oneLimitFails}" data-nearest="${w.nearest}" data-unknown="${w.notComputed}"></p>
</header>
<p id="panel-waiting" role="status">${w.waiting}</p>
<main id="panel-content"${lower === undefined ? '' : ` data-lower="${lower}"`} hidden>
<div id="panel-head">
<div id="panel-tabs" role="tablist" aria-label="${w.views}">${panelViews.map((view, index) => tab('panel-tab', 'panel-sheet', view, w.tabs[index] ?? view, index === 0)).join('')}</div>
<div id="panel-more"><button type="button" id="panel-more-open" aria-haspopup="menu" aria-expanded="false" aria-controls="panel-more-list" aria-label="${w.moreViews}" title="${w.moreViews}" hidden>&hellip;</button><div id="panel-more-list" role="menu" aria-label="${w.moreViews}" hidden></div></div>
<div id="panel-acts" role="toolbar" aria-label="${w.acts}">
${iconButton('search-open', w.search, icons.search, ' aria-expanded="false" aria-controls="panel-search-form" aria-keyshortcuts="Control+F"')}
${iconButton('copy-picture', w.copyPicture, icons.copy, '')}
${iconButton('export', w.exportDrawing, icons.export, '')}
</div>
</div>
<div id="panel-sheet" role="tabpanel" aria-labelledby="panel-tab-layout">
<div id="panel-tools">
<button type="button" id="panel-choices-open" data-for="layout section phasors space" data-all="${w.all}" aria-expanded="false" aria-controls="panel-choices"><span id="panel-choices-words"></span></button>
<span data-for="field"><label for="panel-instant">${w.instant}</label> <input type="range" id="panel-instant" min="0" max="355" step="5" value="0"> <output id="panel-instant-value" for="panel-instant">0°</output> <button type="button" id="panel-play" data-play="${w.play}" data-pause="${w.pause}">${w.play}</button></span>
<span data-for="tables"><label for="panel-table-choice">${w.table}</label> <select id="panel-table-choice">${panelTables.map((name, index) => `<option value="${name}">${w.tables[index] ?? name}</option>`).join('')}</select> <button type="button" id="panel-copy">${w.copy}</button></span>
<span data-for="space" data-live hidden><label for="panel-opened">${w.opened}</label> <input type="range" id="panel-opened" min="0" max="1" step="1" value="0" data-all="${w.allLayers}" data-words="${w.layersLeft}"> <output id="panel-opened-value" for="panel-opened"></output></span>
<div role="toolbar" data-for="${pictureViews}" aria-label="${w.tools}" aria-controls="panel-area">
<button type="button" id="panel-by-hand" data-for="layout" aria-expanded="false" aria-controls="panel-hand">${w.drawByHand}</button>
<button type="button" id="panel-fit" aria-keyshortcuts="0">${w.fit}</button>
<button type="button" id="panel-zoom-out" aria-keyshortcuts="-" aria-label="${w.zoomOut}" title="${w.zoomOut}">&minus;</button>
<button type="button" id="panel-zoom-in" aria-keyshortcuts="+" aria-label="${w.zoomIn}" title="${w.zoomIn}">+</button>
</div>
<div id="panel-choices" role="group" aria-label="${w.choices}" hidden>
<span data-for="layout section phasors space"><label for="panel-phase">${w.phase}</label> <select id="panel-phase" data-all="${w.allPhases}" data-noun="${w.phases}"></select></span>
<span data-for="layout section phasors space"><label for="panel-path">${w.path}</label> <select id="panel-path" data-all="${w.allPaths}" data-noun="${w.paths}"></select></span>
<span data-for="layout section space"><label for="panel-layer">${w.layer}</label> <select id="panel-layer" data-all="${w.allLayers}" data-noun="${w.layers}"></select></span>
<span data-for="layout space"><label for="panel-side">${w.side}</label> <select id="panel-side"><option value="">${w.bothSides}</option><option value="connection">${w.connectionSide}</option><option value="far">${w.farSide}</option></select></span>
<span data-for="space" data-live hidden><label for="panel-coloring">${w.coloring}</label> <select id="panel-coloring" data-phase="${w.phase}" data-path="${w.path}" data-layer="${w.layer}"></select></span>
<label data-for="section"><input type="checkbox" id="panel-circle" data-part="${w.onePart}" data-all="${w.wholeCircle}"> ${w.wholeCircle}</label>
</div>
</div>
<div id="panel-stage">
<section id="panel-area" class="area" tabindex="0" aria-label="${w.drawing}" aria-describedby="panel-description panel-keys"><div id="panel-drawing" class="drawing"></div></section>
<section id="panel-live" class="area" tabindex="0" aria-label="${w.liveDrawing}" aria-describedby="panel-description panel-live-keys" data-script="${escapeHtml(liveScript)}" hidden></section>
<form id="panel-search-form" role="search" hidden><label for="panel-search">${w.search}</label> <input type="search" id="panel-search" size="8" maxlength="12" autocomplete="off" spellcheck="false" placeholder="7b" title="${w.searchHint}"> <button type="button" id="panel-search-close" aria-label="${w.close}" title="${w.close}">&times;</button> <span id="panel-search-result" role="status" data-words="${w.notFound}"></span></form>
</div>
<section id="panel-variants" aria-label="${w.variants}" data-script="${escapeHtml(variantsScript)}" data-words="${w.variantsWords}" data-failed="${w.variantsFailed}" hidden></section>
<p id="panel-description" class="unseen"></p>
<p id="panel-keys" class="unseen">${w.drawingKeys}</p>
<p id="panel-live-keys" class="unseen">${w.liveKeys}</p>
<p id="panel-live-why" data-missing="${w.liveMissing}" data-lost="${w.liveLost}" data-failed="${w.liveFailed}" hidden></p>
<div id="panel-overview" role="scrollbar" tabindex="0" aria-orientation="horizontal" aria-controls="panel-area" aria-valuemin="0" aria-valuemax="100" aria-valuenow="0" aria-label="${w.overview}" title="${w.overview}" hidden><canvas id="panel-overview-picture"></canvas><div id="panel-overview-part"></div></div>
<p id="panel-line"><span id="panel-words"><span id="panel-done" role="status" data-copied="${w.copied}" data-picture="${w.pictureCopied}" data-refused="${w.pictureRefused}"></span> <span id="panel-chosen" role="status"></span><span id="panel-pointed" aria-hidden="true"></span></span><span id="panel-stamp" role="status" data-one="${w.oneErrorStamp}" data-many="${w.manyErrorsStamp}"></span></p>
<div id="panel-table-area" hidden><h2 id="panel-table-title"></h2>
<div class="scroll" tabindex="0" role="region" aria-labelledby="panel-table-title"><table id="panel-table" data-go="${w.goTo}"></table></div></div>
</div>
<div id="panel-divider" role="separator" tabindex="0" aria-orientation="horizontal" aria-controls="panel-sheet panel-lower" aria-valuemin="0" aria-valuemax="100" aria-valuenow="75" aria-label="${w.divider}" title="${w.divider}"></div>
<div id="panel-lower">
<div id="panel-hand" role="group" aria-label="${w.byHand}" aria-describedby="panel-hand-keys" data-script="${escapeHtml(laterScript)}" data-nonce="${nonce}" hidden>
<p id="panel-hand-begin">${w.beginByHand} <button type="button" id="panel-draw" aria-keyshortcuts="D">${w.drawPath} <kbd>D</kbd></button> <button type="button" id="panel-redraw" aria-keyshortcuts="Shift+D">${w.drawPhase} <kbd>&#8679;D</kbd></button> <button type="button" id="panel-lead" aria-keyshortcuts="J">${w.changeJoint} <kbd>J</kbd></button></p>
<div id="panel-hand-state" hidden>
<p id="panel-hand-words" role="status"></p>
<ul id="panel-hand-lines"></ul>
<p id="panel-hand-acts"><button type="button" id="panel-hand-take" data-act="take" aria-keyshortcuts="ArrowRight">${w.takeBar} <kbd>&rarr;</kbd></button> <button type="button" data-act="back" data-path aria-keyshortcuts="ArrowLeft Backspace">${w.stepBack} <kbd>&larr;</kbd></button> <button type="button" data-act="end" data-path aria-keyshortcuts="Enter">${w.endPath} <kbd>Enter</kbd></button> <button type="button" data-act="all" data-path aria-keyshortcuts="A">${w.freeOthers} <kbd>A</kbd></button> <button type="button" data-act="leave" aria-keyshortcuts="Escape">${w.leaveDrawing} <kbd>Esc</kbd></button></p>
<p id="panel-hand-keys">${w.handKeys}</p>
</div>
</div>
<div id="panel-lower-tabs" role="tablist" aria-label="${w.lower}">${panelPanes.map((pane, index) => tab('panel-pane-tab', `panel-pane-${pane}`, pane, w.panes[index] ?? pane, index === 0)).join('')}</div>
<section class="pane" id="panel-pane-figures" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-figures"><dl id="panel-figures"></dl></section>
<section class="pane" id="panel-pane-waves" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-waves" hidden><table id="panel-factors" aria-label="${w.factors}">
<thead><tr>${w.columns.map((column) => `<th scope="col">${column}</th>`).join('')}</tr></thead>
<tbody></tbody></table></section>
<section class="pane" id="panel-pane-limits" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-limits" hidden><p id="panel-no-limits">${w.noLimits}</p><table id="panel-limits" data-fails="${w.fails}" data-holds="${w.holds}" data-unknown="${w.unknown}" data-waits="${w.waits}">
<thead><tr>${w.limitColumns.map((column) => `<th scope="col">${column}</th>`).join('')}</tr></thead>
<tbody></tbody></table></section>
<section class="pane" id="panel-pane-findings" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-findings" hidden><p id="panel-no-findings">${w.noFindings}</p><ul id="panel-findings" data-error="${w.error}" data-warning="${w.warning}" data-info="${w.info}"></ul></section>
<section class="pane" id="panel-pane-connections" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-connections" hidden><p id="panel-connections-words" role="status" data-none="${w.connectionsNone}" data-written="${w.connectionsWritten}" data-searching="${w.connectionsSearching}" data-alone="${w.connectionsAlone}"></p>
<p id="panel-connections-acts" hidden><button type="button" id="panel-write" data-words="${w.writeConnection}"></button></p>
<table id="panel-connections" data-draw="${w.drawConnection}" hidden>
<thead><tr>${w.connectionColumns.map((column) => `<th scope="col">${column}</th>`).join('')}</tr></thead>
<tbody></tbody></table>
<p id="panel-connections-about" hidden>${w.connectionsAbout}</p></section>
<section class="pane" id="panel-pane-changes" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-changes" hidden><p><label for="panel-against">${w.against}</label> <select id="panel-against">${baselines.map((name, index) => `<option value="${name}">${w.baselines[index] ?? name}</option>`).join('')}</select> <button type="button" id="panel-keep">${w.keepState}</button></p>
<p id="panel-changes-words" role="status" data-off="${w.changesOff}">${w.changesOff}</p>
<table id="panel-changes" aria-labelledby="panel-pane-tab-changes" hidden><thead><tr>${w.changeColumns.map((column) => `<th scope="col">${column}</th>`).join('')}</tr></thead><tbody></tbody></table></section>
<section class="pane" id="panel-pane-notes" role="tabpanel" tabindex="0" aria-labelledby="panel-pane-tab-notes" hidden><ul id="panel-notes"></ul><p id="panel-notes-none" hidden>${w.notesNone}</p></section>
</div>
</main>
<div id="panel-notice" role="status" hidden><p id="panel-headline"></p><ul id="panel-places"></ul></div>
<script nonce="${nonce}" src="${escapeHtml(script)}"></script>
</body>
</html>`;
}

function tab(ids: string, controls: string, view: string, title: string, first: boolean): string {
  return `<button type="button" role="tab" id="${ids}-${view}" data-view="${view}" aria-controls="${controls}" aria-selected="${first}" tabindex="${first ? 0 : -1}">${title}</button>`;
}

const icons = {
  search: '<circle cx="6.5" cy="6.5" r="4.5"/><path d="M10 10l4.5 4.5"/>',
  copy: '<path d="M5.5 5.5h9v9h-9zM11 5.5v-4H1.5V11h4"/>',
  export: '<path d="M8 1.5v8.5M4.5 7L8 10.5 11.5 7M1.5 11v3.5h13V11"/>',
};

function iconButton(name: string, title: string, icon: string, more: string): string {
  return `<button type="button" class="icon" id="panel-${name}" aria-label="${title}" title="${title}"${more}><svg viewBox="0 0 16 16" width="16" height="16" aria-hidden="true" fill="none" stroke="currentColor" stroke-width="1.3">${icon}</svg></button>`;
}

function escaped(words: PageWords): PageWords {
  const entries = Object.entries(words).map(([name, text]) => [
    name,
    typeof text === 'string' ? escapeHtml(text) : (text as readonly string[]).map(escapeHtml),
  ]);
  return Object.fromEntries(entries) as PageWords;
}
