/** The thread that `lookMeanwhile` starts. */
import { parentPort, workerData } from 'node:worker_threads';
import { type LookAsked, lookAtParts } from './left-folder-meanwhile.ts';

parentPort?.postMessage(lookAtParts(workerData as LookAsked));
