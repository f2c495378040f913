/**
 * Draws changes at random, so that a large folder is judged in minutes: each alike likely, for one seed the same ones each
 * time. Tests that were written for what one draw showed are judged by another.
 */
import { createHash } from 'node:crypto';
import { declareClassPlugin, PluginKind } from '@stryker-mutator/api/plugin';

/** The tool has no word for 'not tried': as if these could not be compiled, they count neither way. */
const NOT_DRAWN = { status: 'compileError', reason: 'not drawn' };
const DRAWN = { status: 'passed' };

class Sample {
  #seed = Number(process.env.MUTATION_SEED);
  #share = Number(process.env.MUTATION_SAMPLE) / 100;

  init() {
    return Promise.resolve();
  }

  async check(mutants) {
    const lot = (mutant) => (fraction(mutant, this.#seed) < this.#share ? DRAWN : NOT_DRAWN);
    return Object.fromEntries(mutants.map((mutant) => [mutant.id, lot(mutant)]));
  }
}

/** By the change itself: its number differs with what else is changed. Lots under 10 % are among those under 20 %. */
function fraction({ fileName, location, replacement }, seed) {
  const file = fileName.replaceAll('\\', '/').replace(/^.*\/src\/core\//, '');
  const change = JSON.stringify([seed, file, location, replacement]);
  return createHash('sha256').update(change).digest().readUInt32BE(0) / 2 ** 32;
}

export const strykerPlugins = [declareClassPlugin(PluginKind.Checker, 'sample', Sample)];
