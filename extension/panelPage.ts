/** The page's addresses and its own words, in the reader's language. */
export interface PageParts {
  readonly nonce: string;
  readonly script: string;
  readonly style: string;
  readonly words: PageWords;
}

/** Every fixed word on the page. */
export interface PageWords {
  readonly language: string;
  readonly title: string;
  readonly tools: string;
  readonly fit: string;
  readonly zoomIn: string;
  readonly zoomOut: string;
  readonly drawing: string;
  readonly drawingKeys: string;
  readonly figures: string;
  readonly factors: string;
  readonly columns: readonly string[];
}

/**
 * The panel's page. It loads one script and one style sheet, both by nonce, and nothing else; all that depends on
 * the winding arrives by message. The page's ids begin with `panel-`; the picture has its own.
 */
export function panelPage({ nonce, script, style, words }: PageParts): string {
  const policy = `default-src 'none'; script-src 'nonce-${nonce}'; style-src 'nonce-${nonce}'; img-src data:`;
  const w = escaped(words);
  return `<!DOCTYPE html>
<html lang="${w.language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>${w.title}</title>
<link rel="stylesheet" nonce="${nonce}" href="${escapeHtml(style)}">
</head>
<body>
<header>
<h1 id="panel-title">${w.title}</h1>
<span id="panel-stamp" hidden></span>
<div role="toolbar" aria-label="${w.tools}" aria-controls="panel-area">
<button type="button" id="panel-fit" aria-keyshortcuts="0">${w.fit}</button>
<button type="button" id="panel-zoom-out" aria-keyshortcuts="-" aria-label="${w.zoomOut}" title="${w.zoomOut}">&minus;</button>
<button type="button" id="panel-zoom-in" aria-keyshortcuts="+" aria-label="${w.zoomIn}" title="${w.zoomIn}">+</button>
</div>
</header>
<main id="panel-content" hidden>
<section id="panel-area" tabindex="0" aria-label="${w.drawing}" aria-describedby="panel-description panel-keys"><div id="panel-drawing"></div></section>
<p id="panel-description" class="unseen"></p>
<p id="panel-keys" class="unseen">${w.drawingKeys}</p>
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

function escaped(words: PageWords): PageWords {
  const { columns, ...texts } = words;
  const entries = Object.entries(texts).map(([name, text]) => [name, escapeHtml(text)]);
  return { ...(Object.fromEntries(entries) as Omit<PageWords, 'columns'>), columns: columns.map(escapeHtml) };
}

function escapeHtml(text: string): string {
  return text.replace(/[&<>"']/g, (character) => `&#${character.charCodeAt(0)};`);
}
