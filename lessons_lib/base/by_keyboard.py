"""What a page needs beside its widgets, the same for panels and desk: keys, a style, a word while it sleeps.

Script and style act inside of whatever carries the class `PLACE`, and nowhere else in the page.
"""

PLACE = "lesson-widgets"

# An arrow in a list must not choose another cell of the notebook, a letter must not make or delete one.
# What has the keyboard may go (a card that was answered) or rest for a while (a button that works): then nothing would
# have it. So a control that rested gets it back, and for one that went the first of its place takes it.
SCRIPT = """
if (!window.lessonKeyboard) {
  window.lessonKeyboard = true;
  const place = '.lesson-widgets', fields = 'input, select, [role=slider]';
  document.body.addEventListener('keydown', event => {
    const {target, key, shiftKey, ctrlKey, metaKey, altKey} = event;
    const isForThePage = ctrlKey || metaKey || altKey || (shiftKey && key === 'Enter');
    if (target.matches(fields) && target.closest(place) && !isForThePage) event.stopPropagation();
  });
  let last = null, around = null, isLost = false;
  document.addEventListener('focusin', ({target}) => {
    around = target.closest(place);
    last = around && target;
    isLost = false;
  });
  // buttons of one choice are one stop of the Tab key and worked by arrows only where they share a name
  const group = () => document.querySelectorAll('.lesson-choice').forEach((choice, number) => {
    choice.dataset.group ||= `lesson-choice-${number}-${performance.now()}`;
    choice.querySelectorAll('input').forEach(button => { button.name = choice.dataset.group; });
  });
  group();
  const controls = 'input:enabled, select:enabled, button:enabled';
  new MutationObserver(() => {
    group();
    if (!last) return;
    isLost ||= !last.isConnected || last.disabled;
    if (!isLost || document.activeElement !== document.body) return;
    const next = last.isConnected ? last : around.querySelector(controls);
    if (next && !next.disabled) next.focus();
  }).observe(document.body, {childList: true, subtree: true, attributeFilter: ['disabled']});
}
"""

# seen on white and on black; the page's own rules take the outline away from boxes and lists, or cut it off
STYLE = """
.lesson-widgets {padding: 0 5px}
.lesson-widgets, .lesson-widgets .widget-box, .lesson-widgets .widget-inline-hbox {overflow: visible}
.lesson-widgets :is(input, select, button, summary, audio):focus-visible
  {outline: 3px solid var(--jp-ui-font-color0, black) !important; outline-offset: 2px}
.lesson-widgets .jupyter-button {flex-shrink: 0}
/* a finger needs more room than a mouse; where a screen has few colours of its own, a button needs an edge */
@media (pointer: coarse) {
  .lesson-widgets .jupyter-button {min-height: 32px; height: auto}
}
@media (forced-colors: active) {
  .lesson-widgets .jupyter-button {border: 1px solid ButtonText}
  .lesson-widgets .jupyter-button:disabled {border-color: GrayText; color: GrayText}
}
"""

# Stored pages and pages whose kernel has ended keep outputs, but no widgets: then the line under them says what to do.
BEFORE = f"""<script>{SCRIPT}</script>
<style>.jp-OutputArea:has(.{PLACE}) .lesson-asleep {{display: none}}</style>
<p class="lesson-asleep"><strong>This page sleeps.</strong> In the menu: Run, then Run All Cells. What you answered is
kept.</p>"""
