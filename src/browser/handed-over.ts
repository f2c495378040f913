/** Whether a reading was handed over in this tab: asked before what reads it is loaded. */
export const HANDOVER_KEY = 'dipwise:handover';

export function isHandedOver(): boolean {
  try {
    return sessionStorage.getItem(HANDOVER_KEY) !== null;
  } catch {
    return false;
  }
}
