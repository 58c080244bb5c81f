// Runs in the page: every text that can be seen, with its box on the page, its colour, what lies behind it and
// its size; the boxes of the drawings; and elements whose words do not fit into them.
() => {
  const found = [];
  function* ancestors(element) {
    for (let one = element; one; one = one.parentElement) yield one;
  }
  // Words for screen readers alone stand in a box of one pixel.
  const spoken = element => [...ancestors(element)].some(one => one.clientHeight === 1 && one.clientWidth === 1);
  const seen = element => element.checkVisibility({ opacityProperty: true, visibilityProperty: true }) && !spoken(element);
  const behind = element => {
    for (let one = element; one; one = one.parentElement) {
      const colour = getComputedStyle(one).backgroundColor;
      if (colour && !colour.endsWith(', 0)') && colour !== 'transparent') return colour;
    }
    return 'rgb(255, 255, 255)';
  };
  const put = (element, words, box, colour, kind) => {
    if (box.width < 0.5 || box.height < 0.5) return;
    found.push({ words, kind, colour, behind: behind(element), size: parseFloat(getComputedStyle(element).fontSize),
      left: box.left + scrollX, top: box.top + scrollY, right: box.right + scrollX, bottom: box.bottom + scrollY,
      svg: element.closest('svg')?.id ?? '', className: String(element.getAttribute('class') ?? '') });
  };
  for (const element of document.querySelectorAll('svg text')) {
    if (!seen(element) || !element.textContent.trim()) continue;
    // The box of the line of signs, without the room above and below that a font leaves.
    const box = element.getBoundingClientRect(), spare = 0.14 * box.height;
    put(element, element.textContent, new DOMRect(box.x, box.y + spare, box.width, box.height - 2 * spare),
      getComputedStyle(element).fill, 'svg');
  }
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const node = walker.currentNode, element = node.parentElement;
    if (!node.textContent.trim() || !seen(element) || element.closest('svg, script, style, noscript, option, .skip')) continue;
    if (element.closest('details:not([open])') && !element.closest('summary')) continue;
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const box of range.getClientRects()) put(element, node.textContent.trim(), box, getComputedStyle(element).color, 'html');
  }
  for (const element of document.querySelectorAll('input, select, button, textarea')) {
    if (!seen(element) || element.closest('details:not([open])')) continue;
    const style = getComputedStyle(element);
    if (!['range', 'checkbox', 'file', 'hidden'].includes(element.type) && element.tagName !== 'BUTTON')
      put(element, element.value ?? '', element.getBoundingClientRect(), style.color, 'field');
  }
  const svgs = Object.fromEntries([...document.querySelectorAll('svg[id]')].map(one => {
    const box = one.getBoundingClientRect();
    return [one.id, { left: box.left + scrollX, top: box.top + scrollY, right: box.right + scrollX, bottom: box.bottom + scrollY }];
  }));
  const cut = [...document.querySelectorAll('body *')].filter(one => {
    const style = getComputedStyle(one);
    if (!seen(one) || one.closest('svg') || ['auto', 'scroll'].includes(style.overflowX) || one.tagName === 'TEXTAREA') return false;
    if (style.overflowX === 'visible' && !['INPUT', 'BUTTON'].includes(one.tagName)) return false;
    return one.scrollWidth > one.clientWidth + 1 && one.clientWidth > 0 && one.textContent.trim();
  }).map(one => one.tagName + '#' + one.id);
  return { found, svgs, cut, wide: document.documentElement.scrollWidth, window: innerWidth };
}
