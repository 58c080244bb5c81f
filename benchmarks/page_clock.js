// Put into a page before its own scripts: how long is it from a move to the painted answer?
(() => {
  const taken = { quick: [], answered: [], late: [] };
  window.taken = taken;
  let moved = null, asked = 0, waiting = null;
  const afterPaint = run => {
    const channel = new MessageChannel();
    channel.port1.onmessage = run;
    channel.port2.postMessage(0);
  };
  addEventListener('pointermove', event => {
    moved = performance.now();
    taken.late.push(moved - event.timeStamp);
  }, true);
  const fetched = window.fetch;
  window.fetch = async (...words) => {
    const began = moved;
    asked += 1;
    try {
      const answer = await fetched(...words), read = answer.json.bind(answer);
      answer.json = async () => {
        const told = await read();
        asked -= 1;
        if (began !== null && asked === 0) waiting = began;
        return told;
      };
      return answer;
    } catch (fault) { asked -= 1; throw fault; }
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
