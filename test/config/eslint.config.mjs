import js from '@eslint/js';
import astro from 'eslint-plugin-astro';
import tseslint from 'typescript-eslint';

export default tseslint.config(
  {
    ignores: [
      'dist/**',
      '.astro/**',
      '.commands/**',
      'node_modules/**',
      'test-results/**',
      'playwright-report/**',
      'public/**',
    ],
  },
  js.configs.recommended,
  ...tseslint.configs.strict,
  ...tseslint.configs.stylistic,
  ...astro.configs.recommended,
  ...(astro.configs['jsx-a11y-recommended'] ?? []),
  {
    rules: {
      eqeqeq: 'error',
      'no-param-reassign': 'error',
      'max-lines': ['warn', { max: 300, skipBlankLines: true, skipComments: true }],
      'max-lines-per-function': ['warn', { max: 60, skipBlankLines: true, skipComments: true }],
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
    },
  },
  {
    files: ['test/**'],
    rules: { 'max-lines-per-function': 'off', 'max-lines': 'off' },
  },
  {
    files: ['test/pages/**', 'test/base/**'],
    rules: {
      'no-restricted-properties': [
        'error',
        {
          property: 'waitForTimeout',
          message: 'Wait for what is waited for: an element, a request, test/pages/moments.ts.',
        },
      ],
      'no-restricted-imports': ['error', 'timers/promises', 'node:timers/promises'],
    },
  },
  {
    files: ['**/*.mjs'],
    languageOptions: {
      globals: Object.fromEntries(
        ['process', 'console', 'URL', 'setTimeout', 'setInterval', 'fetch', 'AbortSignal'].map((name) => [
          name,
          'readonly',
        ]),
      ),
    },
  },
);
