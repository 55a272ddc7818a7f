import { factorColumns } from '../../protocol/shownParts.ts';
import {
  type PanelPane,
  type PanelTable,
  type PanelView,
  panelPanes,
  panelTables,
  panelViews,
} from '../../protocol/wish.ts';
import { l10n, pageLanguage } from '../../wording.ts';
import { variantsWords } from '../variants/pageWords.ts';
import { onlyConnection } from './connectionChoices.ts';
import type { NoticeWords } from './content.ts';
import type { PageWords } from './page.ts';

/** The page's fixed words in the reader's language. */
export function pageWords(): PageWords {
  return {
    language: pageLanguage(),
    title: l10n.t('Winding layout'),
    waiting: l10n.t('Waiting for the winding …'),
    tools: l10n.t('View of the drawing'),
    fit: l10n.t('Fit'),
    zoomIn: l10n.t('Zoom in'),
    zoomOut: l10n.t('Zoom out'),
    views: l10n.t('Views'),
    phase: l10n.t('Phase'),
    all: l10n.t('All {0}'),
    phases: l10n.t('phases'),
    paths: l10n.t('paths'),
    layers: l10n.t('layers'),
    allPhases: l10n.t('All phases'),
    path: l10n.t('Path'),
    allPaths: l10n.t('All paths'),
    layer: l10n.t('Layer'),
    allLayers: l10n.t('All layers'),
    side: l10n.t('Side'),
    bothSides: l10n.t('Both sides'),
    connectionSide: l10n.t('Connection side'),
    farSide: l10n.t('Far side'),
    search: l10n.t('Go to position'),
    searchHint: l10n.t('Position, slot or slots, such as 7b, 7 or 7-12'),
    notFound: l10n.t('There is no such place in this picture.'),
    wholeCircle: l10n.t('All slots'),
    onePart: l10n.t('One repetition'),
    instant: l10n.t('Instant'),
    play: l10n.t('Play'),
    pause: l10n.t('Pause'),
    table: l10n.t('Table'),
    copy: l10n.t('Copy table'),
    copied: l10n.t('Table copied.'),
    drawing: l10n.t('Drawing'),
    drawingKeys: l10n.t(
      'Plus and minus zoom, 0 fits the drawing into its area, the arrow keys move it. Once a bar is chosen, the left and right arrow keys step along its path; Escape ends that.',
    ),
    liveDrawing: l10n.t('Bars in space, to be turned'),
    liveKeys: l10n.t(
      'The arrow keys turn the bars, with Shift they move them; plus and minus zoom, 0 shows all of them as at first. Once a bar is chosen, the left and right arrow keys step along its path; Escape ends that.',
    ),
    liveMissing: l10n.t(
      'Shown as a picture: to be turned, the bars need WebGL 2, which this editor does not offer here.',
    ),
    liveLost: l10n.t(
      'Shown as a picture: the graphics processor was taken away. Open the tab again to try once more.',
    ),
    liveFailed: l10n.t(
      'Shown as a picture: the part that turns the bars could not be loaded. Open the tab again to try once more.',
    ),
    opened: l10n.t('Open'),
    layersLeft: l10n.t('Layers a to {0}'),
    coloring: l10n.t('Color by'),
    figures: l10n.t('Key figures'),
    variants: l10n.t('Variants'),
    variantsFailed: l10n.t(
      'The part that shows variants could not be loaded. Open the tab again to try once more.',
    ),
    variantsWords: JSON.stringify(variantsWords()),
    factors: l10n.t('Winding factors and waves'),
    moreViews: l10n.t('More views'),
    acts: l10n.t('Search and export'),
    copyPicture: l10n.t('Copy as picture'),
    pictureCopied: l10n.t('Picture copied.'),
    pictureRefused: l10n.t('The picture could not be copied here; export the drawing instead.'),
    exportDrawing: l10n.t('Export the drawing'),
    choices: l10n.t('What stands out'),
    close: l10n.t('Close'),
    overview: l10n.t('The whole development; the frame is what is seen. Drag it, or use the arrow keys.'),
    divider: l10n.t('Divider between drawing and figures. Drag it, or use the arrow keys.'),
    lower: l10n.t('Figures and findings'),
    goTo: l10n.t('Go to {0}'),
    oneError: l10n.t('1 error'),
    manyErrors: l10n.t('{0} errors'),
    oneWarning: l10n.t('1 warning'),
    manyWarnings: l10n.t('{0} warnings'),
    oneErrorStamp: l10n.t('Not released: 1 error'),
    manyErrorsStamp: l10n.t('Not released: {0} errors'),
    limitsHold: l10n.t('{0} of {1} limits hold'),
    onlyLimitHolds: l10n.t('The limit holds'),
    onlyLimitFails: l10n.t('The limit fails:'),
    limitsWait: l10n.t('{0} being computed …'),
    oneLimitFails: l10n.t('{0} of {1} limits fails:'),
    limitsFail: l10n.t('{0} of {1} limits fail:'),
    nearest: l10n.t('nearest: {0}'),
    notComputed: l10n.t('not computed'),
    noLimits: l10n.t('The text states no limits. A require block holds them.'),
    noFindings: l10n.t('Nothing is found amiss.'),
    fails: l10n.t('fails'),
    holds: l10n.t('holds'),
    unknown: l10n.t('not computed'),
    waits: l10n.t('being computed …'),
    error: l10n.t('Error'),
    warning: l10n.t('Warning'),
    info: l10n.t('Note'),
    columns: columnTitles(),
    tabs: tabTitles(),
    tables: tableTitles(),
    panes: paneTitles(),
    against: l10n.t('Against'),
    baselines: [l10n.t('nothing'), l10n.t('the last commit'), l10n.t('the state kept')],
    keepState: l10n.t('Keep this state'),
    notesNone: l10n.t('Notes stand beside drawings: what they show, and how. Here is none.'),
    changesOff: l10n.t(
      'Choose with what the text is to be compared while you type: its last commit, or a state that you keep.',
    ),
    changeColumns: [l10n.t('Figure'), l10n.t('Before'), l10n.t('Now')],
    byHand: l10n.t('Paths by hand'),
    drawByHand: l10n.t('By hand'),
    beginByHand: l10n.t(
      'Choose a bar or a joint in the drawing; then draw the path from that bar, draw all paths of its phase anew, or let the joint lead to another bar. It is written when you end it; paths that were found are written out first.',
    ),
    drawPath: l10n.t('Draw path'),
    drawPhase: l10n.t('Draw all paths of the phase'),
    changeJoint: l10n.t('Change joint'),
    takeBar: l10n.t('Take'),
    stepBack: l10n.t('Back'),
    endPath: l10n.t('End'),
    freeOthers: l10n.t('Free others'),
    leaveDrawing: l10n.t('Leave'),
    handKeys: l10n.t(
      '○ regular joint, ◇ special joint, □ connecting piece; the filled one is taken next. Up and down choose among them, right takes, a click takes any of them.',
    ),
    connectionColumns: [
      l10n.t('No.'),
      l10n.t('Pieces'),
      l10n.t('Levels'),
      l10n.t('Joint shapes'),
      l10n.t('Bar shapes'),
      l10n.t('Legs apart'),
      l10n.t('Special joints'),
      l10n.t('In a slot'),
      l10n.t('Length'),
      l10n.t('Starts'),
    ],
    connectionsAbout: l10n.t(
      'Pieces, joint shapes and special joints of one phase, the rest of all; length: of bars and connecting pieces; in a slot: the largest voltage between neighboring bars, of the phase voltage; in brackets what a connection has more or less than the first, which the text gives now.',
    ),
    connectionsNone: l10n.t(
      "The text has no connection: there is nothing to choose from. A block connect with a route, as in 'route paths 2', and no errors before it have some found.",
    ),
    connectionsWritten: l10n.t(
      "The paths are written in the text: there is nothing to choose from. With a route, as in 'route paths 2', in their place, connections are found.",
    ),
    connectionsSearching: l10n.t('Connections are being found …'),
    connectionsAlone: onlyConnection(),
    drawConnection: l10n.t('Draw connection {0}'),
    writeConnection: l10n.t('Write out connection {0}'),
    limitColumns: [l10n.t('Limit'), l10n.t('Required'), l10n.t('Value'), l10n.t('Margin'), l10n.t('State')],
  };
}

function tabTitles(): string[] {
  const titles: Readonly<Record<PanelView, string>> = {
    layout: l10n.t('Layout'),
    section: l10n.t('Section'),
    phasors: l10n.t('Phasors'),
    field: l10n.t('Field'),
    copper: l10n.t('Copper'),
    operation: l10n.t('Operation'),
    space: l10n.t('Space'),
    variants: l10n.t('Variants'),
    tables: l10n.t('Tables'),
  };
  return panelViews.map((view) => titles[view]);
}

function tableTitles(): string[] {
  const titles: Readonly<Record<PanelTable, string>> = {
    slots: l10n.t('Slots'),
    bars: l10n.t('Bars'),
    joints: l10n.t('Joints'),
    leads: l10n.t('Leads'),
    paths: l10n.t('Paths'),
    factors: l10n.t('Factors'),
    bends: l10n.t('Bend list'),
    duty: l10n.t('Duty'),
    findings: l10n.t('Findings'),
  };
  return panelTables.map((table) => titles[table]);
}

function paneTitles(): string[] {
  const titles: Readonly<Record<PanelPane, string>> = {
    figures: l10n.t('Key figures'),
    waves: l10n.t('Waves'),
    limits: l10n.t('Limits'),
    findings: l10n.t('Findings'),
    connections: l10n.t('Routes'),
    changes: l10n.t('Changes'),
    notes: l10n.t('Notes'),
  };
  return panelPanes.map((pane) => titles[pane]);
}

/** The wording of the panel's notices in the reader's language. */
export function noticeWords(): NoticeWords {
  return {
    outOfDate: {
      stamp: l10n.t('Out of date'),
      headline: l10n.t('Out of date: the text has errors. Shown is the last winding that could be drawn.'),
    },
    partly: {
      stamp: l10n.t('Incomplete'),
      headline: l10n.t('The text has errors. Shown is what could be read of it.'),
    },
    nothing: { stamp: '', headline: l10n.t('Nothing to draw yet: the text does not yield a layout.') },
    noText: { stamp: '', headline: l10n.t('Open a winding file to see its layout.') },
    working: {
      stamp: l10n.t('Working'),
      headline: l10n.t('Paths are being found. Until then coil ends are drawn.'),
    },
    offered: {
      stamp: l10n.t('Found before'),
      headline: l10n.t(
        'With the sizes as they are now, another connection is the best one. Shown is the one found before.',
      ),
    },
    toOffer: l10n.t('Take that one, or write out this one'),
    lost: (file) => ({
      stamp: l10n.t('Out of date'),
      headline: l10n.t('{0} cannot be read any more. Shown is what was known of it.', file),
    }),
    undrawable: (reason) => ({
      stamp: l10n.t('Not drawn'),
      headline: l10n.t('This view could not be drawn: {0}', reason),
    }),
    line: (line, message) => l10n.t('Line {0}: {1}', line, message),
    more: (count) => l10n.t('Further errors: {0}.', count),
  };
}

function columnTitles(): string[] {
  const titles: Readonly<Record<(typeof factorColumns)[number], string>> = {
    order: l10n.t('Order'),
    harmonic: l10n.t('Harmonic'),
    distribution: l10n.t('Distribution'),
    pitch: l10n.t('Pitch'),
    skew: l10n.t('Skew'),
    winding: l10n.t('Winding factor'),
    wave: l10n.t('Wave'),
    direction: l10n.t('Direction'),
  };
  return factorColumns.map((column) => titles[column]);
}
