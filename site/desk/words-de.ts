import { english } from './words-en.ts';
export const german = english;
