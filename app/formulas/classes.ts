import { onPaper } from '../_ui/classes';
import styles from './formulas.module.css';

export const on = onPaper(styles);
