/** Web Locks, where the browser has them: one at a time over all tabs and the service worker. */

export function withLock<Result>(name: string, work: () => Promise<Result>): Promise<Result> {
  if (!("locks" in navigator)) return work();
  return navigator.locks.request(name, work) as Promise<Result>;
}
