/**
 * Wraps the unmodified text of opencv-wasm's UMD file into a function
 * expression `(options) => cv`, so that it runs alike in Node and in a worker.
 *
 * The parameters hide the surroundings the file would sniff: it must not see
 * Node's `process` (it would install handlers that end the process on any
 * unhandled rejection), nor fetch the wasm by itself.
 *
 * @param {string} umd
 * @returns {string}
 */
export function factorySource(umd) {
  return `(options) => (function (process, require, module, exports, window, document, importScripts, self) {
let start;
function define(first) { if (typeof first === 'function') start = first; }
define.amd = true;
${umd}
Object.assign(Module, options);
return start();
}).call({}, undefined, undefined, undefined, undefined, undefined, undefined, () => {}, { location: { href: '' } })`;
}
