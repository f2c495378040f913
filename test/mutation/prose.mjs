/** Leaves out sentences to the reader: whether they read well isn't for a unit test to say. */
import { declareValuePlugin, PluginKind } from '@stryker-mutator/api/plugin';

/** Codes, keys, units and formats have no blank between words. */
const PROSE = /\p{L}[,;:.!?’)]* +[\p{L}(]/u;

const prose = {
  shouldIgnore(path) {
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
