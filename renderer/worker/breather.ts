/** A pause in which a worker hears the messages that wait for it: one turn of its event loop, without a timer's delay. */
export function breather(): () => Promise<void> {
  const { port1, port2 } = new MessageChannel();
  const waiting: (() => void)[] = [];
  port1.addEventListener('message', () => waiting.shift()?.());
  port1.start();
  return () =>
    new Promise((resolve) => {
      waiting.push(resolve);
      port2.postMessage(null, { transfer: [] });
    });
}
