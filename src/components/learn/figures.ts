/** The computed figures of the explainers, as they stand in their sentences. All from the core, at build time. */
export * from './figures/balance.ts';
export * from './figures/chlorine.ts';
export * from './figures/equipment.ts';
export * from './figures/pool.ts';
export * from './figures/waits.ts';
