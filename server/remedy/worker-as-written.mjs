// The worker where nothing was built (development, tests): a thread takes no loader along on Node 20, so it asks for one first.
import { register } from 'tsx/esm/api';

register();
await import('./worker');
