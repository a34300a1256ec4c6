// Two tabs: the one that was there first writes, a second one only reads.

const LOCK = "quillet-files";

/** Whether this tab may write; a lock that the browser gives up with the tab. */
export async function mayWrite(): Promise<boolean> {
  if (navigator.locks === undefined) {
    return true;
  }
  return new Promise((answer) => {
    void navigator.locks.request(LOCK, { ifAvailable: true }, (lock) => {
      answer(lock !== null);
      // Held for as long as the tab lives.
      return lock === null ? undefined : new Promise(() => undefined);
    });
  });
}
