// Put into a page before its own scripts: how long is it from a move to the painted answer?
(() => {
  const taken = { quick: [], answered: [], late: [] };
  window.taken = taken;
  let moved = null, waiting = null;
  const afterPaint = run => {
    const channel = new MessageChannel();
    channel.port1.onmessage = run;
    channel.port2.postMessage(0);
  };
  addEventListener('pointermove', event => {
    moved = performance.now();
    taken.late.push(moved - event.timeStamp);
  }, true);
  // Of the questions, those that a turned adjuster asks at once; the rest follow when the hand rests.
  const atOnce = /\/ask\/(moved|drawing)\b/;
  const fetched = window.fetch;
  window.fetch = async (...words) => {
    const began = moved, answer = await fetched(...words);
    if (began !== null && atOnce.test(String(words[0]))) {
      const read = answer.json.bind(answer);
      answer.json = async () => {
        const told = await read();
        waiting = began;
        return told;
      };
    }
    return answer;
  };
  const look = () => {
    const side = document.getElementById('side');
    new MutationObserver(() => {
      const from = moved, answered = waiting;
      waiting = null;
      afterPaint(() => {
        const now = performance.now();
        if (from !== null && from !== taken.last) taken.quick.push(now - from);
        taken.last = from;
        if (answered !== null) taken.answered.push(now - answered);
      });
    }).observe(side, { childList: true, subtree: true, attributes: true });
  };
  addEventListener('DOMContentLoaded', look);
})();
