/** What a unit test can't sensibly judge is left alone. */
import { declareValuePlugin, PluginKind } from '@stryker-mutator/api/plugin';

/** Sentences to the reader. Codes, keys, units and formats have no blank between words. */
const PROSE = /\p{L}[,;:.!?’)]* +[\p{L}(]/u;
/** Found by a simulation, and judged by it: see same-print.ts. A comparison with itself would say nothing. */
const FOUND = 'PATTERNS';

const prose = {
  shouldIgnore(path) {
    if (path.isVariableDeclarator() && path.node.id.name === FOUND) return 'found by simulation';
    if (path.isStringLiteral() && PROSE.test(path.node.value)) return 'prose';
    // What a sentence's gaps are filled with is judged where it is more than a name.
    if (!path.isTemplateLiteral() || !PROSE.test(path.node.quasis.map(({ value }) => value.raw).join('x'))) return;
    if (path.node.expressions.every(isNamed)) return 'prose';
  },
};

function isNamed({ type }) {
  return type === 'Identifier' || type === 'MemberExpression';
}

export const strykerPlugins = [declareValuePlugin(PluginKind.Ignore, 'prose', prose)];
