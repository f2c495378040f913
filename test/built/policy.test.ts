import { CspEvaluator, DEFAULT_CHECKS, STRICTCSP_CHECKS } from 'csp_evaluator/dist/evaluator.js';
import { Type } from 'csp_evaluator/dist/finding.js';
import { CspParser } from 'csp_evaluator/dist/parser.js';
import { globSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { PAGES, textOf } from './files.ts';

/** Findings that don't apply here, and why. */
const ACCEPTED: Readonly<Record<string, string>> = {
  'SCRIPT_ALLOWLIST_BYPASS in script-src':
    "'self' is a hole where the same host serves callbacks, template engines or what visitors upload; it serves files of this build only",
  'UNSAFE_INLINE_FALLBACK in script-src':
    'meant for browsers from before hashes were known; they know no module scripts either, so nothing here runs in them',
  'REQUIRE_TRUSTED_TYPES_FOR_SCRIPTS in require-trusted-types-for':
    'no script builds markup from text (tested below); workers would need a policy of their own for their address',
};

/** A browser passes over these in a meta tag; only a header could set them, and a static site sends none of its own. */
const HEADER_ONLY = ['frame-ancestors', 'report-uri', 'report-to', 'sandbox'];

function findingsIn(policy: string): string[] {
  const evaluator = new CspEvaluator(new CspParser(policy).csp);
  return evaluator
    .evaluate([], [...DEFAULT_CHECKS, ...STRICTCSP_CHECKS])
    .map(({ type, directive }) => `${Type[type]} in ${directive}`);
}

function policyOf(page: string): string {
  const policies = [...textOf(page).matchAll(/<meta http-equiv="content-security-policy" content="([^"]*)"/gi)];
  expect(policies).toHaveLength(1);
  return policies[0]![1]!;
}

it('finds holes where there are some', () => {
  expect(findingsIn("script-src 'unsafe-inline' *")).toEqual(
    expect.arrayContaining(['SCRIPT_UNSAFE_INLINE in script-src', 'PLAIN_WILDCARD in script-src']),
  );
});

it.each(PAGES)('%s has no hole in its policy beyond what is accepted with a reason', (page) => {
  expect(findingsIn(policyOf(page)).filter((finding) => !(finding in ACCEPTED))).toEqual([]);
});

it.each(PAGES)('%s asks in its meta tag for nothing that only a header can ask for', (page) => {
  const names = policyOf(page)
    .split(';')
    .map((part) => part.trim().split(' ')[0]);
  expect(names.filter((name) => HEADER_ONLY.includes(name!))).toEqual([]);
});

it('accepts only what is still found', () => {
  const found = new Set(PAGES.flatMap((page) => findingsIn(policyOf(page))));
  expect([...found].sort()).toEqual(Object.keys(ACCEPTED).sort());
});

it('never builds markup from text', () => {
  const files = globSync('src/**/*.{ts,astro,mdx}');
  expect(files.length).toBeGreaterThan(200);
  const builders = /innerHTML|outerHTML|insertAdjacentHTML|document\.write|DOMParser|createContextualFragment|srcdoc/;
  expect(files.filter((file) => builders.test(readFileSync(file, 'utf8')))).toEqual([]);
});
