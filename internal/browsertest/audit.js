(() => {
  const bad = [];
  const root = document.documentElement;
  if (root.scrollWidth > root.clientWidth) {
    bad.push(`scrolls sideways: ${root.scrollWidth} px on ${root.clientWidth}`);
    for (const e of document.body.querySelectorAll('*')) {
      const r = e.getBoundingClientRect();
      if (r.right > root.clientWidth + 1 && !e.closest('svg svg, svg *')) {
        bad.push(`  too wide: <${e.tagName.toLowerCase()} class="${e.getAttribute('class') || ''}"> to ${Math.round(r.right)}`);
        break;
      }
    }
  }
  const heads = document.querySelectorAll('h1').length;
  if (heads !== 1) bad.push(`${heads} h1`);

  const shown = e => e.checkVisibility({checkOpacity: true, checkVisibilityCSS: true});
  const say = e => `<${e.tagName.toLowerCase()}> "${(e.innerText || e.value || e.textContent || '').trim().slice(0, 40)}"`;

  // A link in running text is part of its line.
  const inSentence = e => e.tagName === 'A' && getComputedStyle(e).display === 'inline' &&
    [...e.parentElement.childNodes].some(n => n.nodeType === 3 && n.textContent.trim() !== '');
  for (const e of document.querySelectorAll('a[href], button, input:not([type=hidden]), select, textarea, summary')) {
    if (!shown(e) || e.classList.contains('skip') || inSentence(e)) continue;
    const target = (e.type === 'checkbox' || e.type === 'radio') && e.closest('label') || e;
    const h = target.getBoundingClientRect().height;
    const least = e.closest('.keys') ? 72 : 44;
    if (h < least - 0.5) bad.push(`target ${Math.round(h)} px high, ${least} wanted: ${say(e)}`);
  }

  for (const e of document.querySelectorAll('input:not([type=hidden]), select, textarea')) {
    const label = [...(e.labels || [])].map(l => l.textContent.trim()).join(' ') || e.getAttribute('aria-label');
    if (!label) bad.push(`no label: ${e.outerHTML.slice(0, 80)}`);
    const by = e.getAttribute('aria-describedby');
    for (const id of (by || '').split(/\s+/).filter(Boolean)) {
      if (!document.getElementById(id)) bad.push(`described by what is not there: ${id}`);
    }
  }

  const colour = text => {
    const m = /rgba?\(([^)]*)\)/.exec(text);
    if (!m) return null;
    const p = m[1].split(/[\s,\/]+/).filter(Boolean).map(Number);
    return {r: p[0], g: p[1], b: p[2], a: p.length > 3 ? p[3] : 1};
  };
  const over = (top, under) => ({
    r: top.r * top.a + under.r * (1 - top.a), g: top.g * top.a + under.g * (1 - top.a), b: top.b * top.a + under.b * (1 - top.a), a: 1,
  });
  const ground = e => {
    const layers = [];
    for (let x = e; x; x = x.parentElement) {
      const c = colour(getComputedStyle(x).backgroundColor);
      if (c && c.a > 0) { layers.push(c); if (c.a === 1) break; }
    }
    return layers.reverse().reduce((under, top) => over(top, under), {r: 255, g: 255, b: 255, a: 1});
  };
  const luminance = c => {
    const f = v => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; };
    return 0.2126 * f(c.r) + 0.7152 * f(c.g) + 0.0722 * f(c.b);
  };
  const ratio = (a, b) => { const x = luminance(a), y = luminance(b); return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05); };
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let texts = 0;
  for (let n = walk.nextNode(); n; n = walk.nextNode()) {
    const e = n.parentElement;
    if (!n.textContent.trim() || !shown(e) || e.closest('.skip, title, desc, defs')) continue;
    texts++;
    const style = getComputedStyle(e), svg = e.closest('svg');
    const ink = colour(svg ? style.fill : style.color);
    if (!ink) continue;
    const under = ground(svg || e);
    const size = parseFloat(style.fontSize), bold = Number(style.fontWeight) >= 700;
    const least = size >= 24 || (bold && size >= 18.66) ? 3 : 4.5;
    const is = ratio(over(ink, under), under);
    if (is < least) bad.push(`contrast ${is.toFixed(2)}, ${least} wanted: ${say(e)}`);
  }
  if (texts === 0) bad.push('no text');

  const first = [...document.querySelectorAll('main a[href], main button, main input:not([type=hidden]), main select, main summary')].filter(shown);
  for (const e of first.slice(0, 12)) {
    e.focus({focusVisible: true, preventScroll: true});
    const s = getComputedStyle(e);
    if (s.outlineStyle === 'none' || parseFloat(s.outlineWidth) < 2) bad.push(`focus not seen: ${say(e)}`);
  }
  if (document.activeElement) document.activeElement.blur();
  return bad;
})()
