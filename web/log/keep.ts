/**
 * Asks the browser not to clear the log when space runs short, and says whether it agreed. Some browsers lack the question,
 * some refuse it without a prompt: `false` then, and the screen must not promise more.
 */
export const keep = async (): Promise<boolean> => {
  try {
    const storage: Partial<StorageManager> | undefined = globalThis.navigator?.storage
    return (await storage?.persisted?.()) || (await storage?.persist?.()) || false
  } catch {
    return false
  }
}
