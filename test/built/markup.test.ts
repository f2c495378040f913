import { HtmlValidate } from 'html-validate';
import { expect, it } from 'vitest';
import { fileOf, PAGES } from './files.ts';

const validator = new HtmlValidate({
  root: true,
  extends: ['html-validate:standard', 'html-validate:a11y', 'html-validate:document'],
  rules: {
    // What comes from the site itself is as safe as the page that would hold the digest.
    'require-sri': ['error', { target: 'crossorigin' }],
    // Forms that answer while one types have nothing to send. Those that do send have their button.
    'wcag/h32': 'off',
    // The camera's picture is named by what it shows, as the standard allows for any element that isn't generic.
    'aria-label-misuse': ['error', { allowAnyNamable: true }],
  },
});

it('finds a mistake where there is one', async () => {
  const report = await validator.validateString('<!doctype html><html lang="en"><p><div></div></p></html>');
  expect(report.valid).toBe(false);
});

it.each(PAGES)('%s is valid HTML', async (page) => {
  const { results } = await validator.validateFile(fileOf(page));
  expect(results.flatMap(({ messages }) => messages.map((m) => `${m.ruleId}: ${m.message} (${m.selector})`))).toEqual(
    [],
  );
});
