import { onPaper } from '../../_ui/classes';
import styles from '../today.module.css';

export const on = onPaper(styles);
