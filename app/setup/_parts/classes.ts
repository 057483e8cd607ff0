import { onPaper } from '../../_ui/classes';
import styles from '../setup.module.css';

export const on = onPaper(styles);
