/** A property that fails once has noticed the change: no smaller example is looked for. */
import fc from 'fast-check';

fc.configureGlobal({ ...fc.readConfigureGlobal(), endOnFailure: true });
