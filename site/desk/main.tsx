/** Starts the desk's page. */
import { render } from 'preact';
import { Desk } from './Desk.tsx';
import { takeToken } from './server.ts';

takeToken();
render(<Desk />, document.getElementById('desk')!);
