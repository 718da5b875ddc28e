import type { Page } from 'playwright-core';

/** Words that reach beyond the window or are cut by their own box, and scroll bars inside scroll bars. */
export const clipped = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const faults: string[] = [];
    for (const element of document.querySelectorAll<HTMLElement>('body *')) {
      if (element.closest('.hidden, svg, [hidden]') !== null) continue;
      const hasWords = [...element.childNodes].some(
        (node) => node.nodeType === Node.TEXT_NODE && node.textContent!.trim() !== '',
      );
      const { left, right, top, bottom, width } = element.getBoundingClientRect();
      const name = `${element.className || element.tagName} "${element.textContent.slice(0, 40)}"`;
      if (hasWords && width > 0 && (left < 0 || top < 0 || right > innerWidth || bottom > innerHeight)) {
        faults.push(`beyond the window: ${name}`);
      }
      if (
        hasWords &&
        element.scrollWidth > element.clientWidth + 1 &&
        getComputedStyle(element).overflowX !== 'visible'
      ) {
        faults.push(`cut off: ${name}`);
      }
      if (element.classList.contains('leaf-body') && element.scrollHeight > element.clientHeight + 1) {
        faults.push(`must be scrolled: ${name}`);
      }
    }
    return faults;
  });
