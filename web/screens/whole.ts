/** Keeps a number and its unit on one line. */
export const whole = (text: string): string => text.replace(/(\d) (V|A|m|s|min|kΩ|mΩ|Ω)(?![\p{L}\d])/gu, '$1\u00a0$2')
