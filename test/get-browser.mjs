// Gets a Chromium for the page tests where there is none.
import { ensureChromium } from './browser.mjs';

ensureChromium();
