/** The thread that `isAsLeftMeanwhile` starts. */
import { parentPort, workerData } from 'node:worker_threads';
import { isAsLeft } from './left-folder.ts';
import type { LookAsked } from './left-folder-meanwhile.ts';

const { folder, left } = workerData as LookAsked;
parentPort?.postMessage(isAsLeft(folder, left));
