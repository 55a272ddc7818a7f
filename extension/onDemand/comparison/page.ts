import { comparisonViews } from '../../protocol/comparisonMessages.ts';
import { l10n, pageLanguage } from '../../wording.ts';
import { escapeHtml, type PageFiles, pageHead } from '../page.ts';

/**
 * The comparison's page; like the panel's, it loads one script and one style sheet by nonce, and nothing else.
 * `problem` says why there is nothing to wait for; null where there is.
 */
export function comparisonPage({ nonce, script, style }: PageFiles, problem: string | null): string {
  const word = (text: string) => escapeHtml(text);
  const titles = [
    l10n.t('Overlay'),
    l10n.t('Side by side'),
    l10n.t('Bars in space'),
    l10n.t('Statements and numbers'),
  ];
  const tabs = comparisonViews.map((view, index) => {
    const first = index === 0;
    return `<button type="button" role="tab" id="panel-tab-${view}" data-view="${view}" aria-controls="panel-sheet" aria-selected="${first}" tabindex="${first ? 0 : -1}">${word(titles[index] ?? view)}</button>`;
  });
  const button = (name: string, text: string) =>
    `<button type="button" id="panel-${name}">${word(text)}</button>`;
  const side = (name: string, title: string) =>
    `<div><dt>${word(title)}</dt><dd><span id="panel-${name}-name"></span> <span id="panel-${name}-about" class="quiet"></span></dd></div>`;
  const drawing = (name: string) =>
    `<section class="area" id="panel-area-${name}" tabindex="0" aria-labelledby="panel-name-${name}" aria-describedby="panel-description-${name} panel-keys"><div class="drawing" id="panel-drawing-${name}"></div></section>`;
  const legend = [
    ['kept', l10n.t('in both')],
    ['removed', l10n.t('in the old winding only')],
    ['added', l10n.t('in the new winding only')],
  ].map(([name, text]) => `<span class="sample ${name}">${word(text!)}</span>`);
  const description = (name: string) => `<p id="panel-description-${name}" class="unseen"></p>`;
  return `<!DOCTYPE html>
<html lang="${word(pageLanguage())}">
<head>
${pageHead(nonce, style, word(l10n.t('Winding comparison')))}
</head>
<body class="comparison">
<header><h1 class="unseen">${word(l10n.t('Winding comparison'))}</h1>
<dl id="panel-sides">${side('old', l10n.t('Old'))}${side('now', l10n.t('New'))}</dl>
<span id="panel-stamp"></span>${button('swap', l10n.t('Swap old and new'))}</header>
<p id="panel-waiting" role="status">${word(problem ?? l10n.t('Waiting for the windings …'))}</p>
<main id="panel-content" hidden>
<section aria-labelledby="panel-headline"><div role="status"><h2 id="panel-headline"></h2></div><ul id="panel-details"></ul></section>
<div id="panel-tabs" role="tablist" aria-label="${word(l10n.t('Views'))}">${tabs.join('')}</div>
<div id="panel-sheet" role="tabpanel" aria-labelledby="panel-tab-overlay">
<div id="panel-tools">
<span data-for="overlay beside">${button('previous', l10n.t('Previous difference'))} ${button('next', l10n.t('Next difference'))} <span id="panel-step" role="status"></span></span>
<div role="toolbar" data-for="overlay beside space" aria-label="${word(l10n.t('View of the drawing'))}">
${button('fit', l10n.t('Fit'))}
<button type="button" id="panel-zoom-out" aria-label="${word(l10n.t('Zoom out'))}">&minus;</button>
<button type="button" id="panel-zoom-in" aria-label="${word(l10n.t('Zoom in'))}">+</button>
</div></div>
<p id="panel-legend" data-for="overlay space"><span data-for="space">${word(l10n.t('Left the old winding, right the new one.'))}</span> ${legend.join(' ')}</p>
<p id="panel-missing" data-for="overlay" hidden>${word(l10n.t('One of the texts yields no layout, so there is nothing to lay over each other.'))}</p>
<div data-for="overlay"><h3 class="unseen" id="panel-name-overlay">${word(l10n.t('The old winding laid over the new one'))}</h3>${drawing('overlay')}</div>
<p id="panel-no-space" data-for="space"></p>
<div data-for="space"><h3 class="unseen" id="panel-name-space">${word(l10n.t('The bars in space of the old winding and of the new one'))}</h3>${drawing('space')}</div>
<div data-for="beside" class="beside"><div><h3 id="panel-name-old"></h3>${drawing('old')}</div><div><h3 id="panel-name-now"></h3>${drawing('now')}</div></div>
<p id="panel-drawing-notes" class="quiet" data-for="overlay space"></p>
${['overlay', 'space', 'old', 'now'].map(description).join('')}
<p id="panel-keys" class="unseen">${word(l10n.t('Plus and minus zoom, 0 fits the drawing into its area, the arrow keys move it.'))}</p>
<div id="panel-tables" data-for="numbers"></div>
</div>
</main>
<div id="panel-notice" role="status" hidden><p id="panel-broken"></p><ul id="panel-places"></ul></div>
<script nonce="${nonce}" src="${escapeHtml(script)}"></script>
</body>
</html>`;
}
