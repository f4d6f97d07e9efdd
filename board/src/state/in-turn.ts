/** Does one thing after the other: the next begins when the one before has ended, however it ended. */
export function inTurn(): <T>(work: () => Promise<T>) => Promise<T> {
  let last: Promise<unknown> = Promise.resolve();
  return (work) => {
    const done = last.then(work);
    last = done.catch(() => undefined);
    return done;
  };
}
