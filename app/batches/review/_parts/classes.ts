import { onPaper } from '../../../_ui/classes';
import styles from '../review.module.css';

export const on = onPaper(styles);
