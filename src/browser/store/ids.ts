/** A new id: a random UUID, also where `randomUUID` is missing because the page isn't served securely. */
export function newId(): string {
  if (typeof crypto.randomUUID === 'function') return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  // RFC 9562, section 5.4: version 4, variant 10.
  bytes[6] = (bytes[6]! & 0x0f) | 0x40;
  bytes[8] = (bytes[8]! & 0x3f) | 0x80;
  const hex = [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, '$1-$2-$3-$4-$5');
}

/** The device's offset from UTC at a time, minutes. */
export function zoneMinutesAt(time: Date): number {
  // Minus nothing would be -0, which JSON and tables don't tell from 0.
  return -time.getTimezoneOffset() || 0;
}
