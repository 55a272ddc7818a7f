import type { Document, Statement } from '../../core/language/text/document.ts';

// What a document says, without the places it is said at: formatting must not change it.

function withoutPlaces(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(withoutPlaces);
  if (value === null || typeof value !== 'object') return value;
  const kept = Object.entries(value).filter(([key]) => key !== 'range');
  return Object.fromEntries(kept.map(([key, part]) => [key, withoutPlaces(part)]));
}

function statementOf({ entry, values }: Statement): unknown {
  return { word: entry.word, values: withoutPlaces(values) };
}

/** Everything understood and every finding, without ranges. */
export function structureOf(document: Document): unknown {
  return {
    title: document.title ? statementOf(document.title) : null,
    blocks: document.blocks.map(({ name, layers, statements, broken }) => ({
      name,
      layers: layers.map(({ layer }) => layer),
      statements: statements.map(statementOf),
      broken: broken.length,
    })),
    findings: document.findings.map(({ code, severity, message }) => ({ code, severity, message })),
  };
}

/** The comments of a document, in order, without blanks at their ends. */
export function commentsOf({ tokens }: Document): readonly string[] {
  return tokens.filter(({ kind }) => kind === 'comment').map(({ text }) => text.trimEnd());
}
