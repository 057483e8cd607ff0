'use client';
import { Component } from 'react';
import type { ReactNode } from 'react';

interface BoundaryProps {
  readonly children: ReactNode;
  /** Stands in the place of what broke. */
  readonly fallback: ReactNode;
}

/** Keeps a break to the part it happened in: what is drawn outside, alarms above all, goes on. */
export class Boundary extends Component<BoundaryProps, { readonly broken: boolean }> {
  override state = { broken: false };

  static getDerivedStateFromError(): { readonly broken: boolean } {
    return { broken: true };
  }

  override render(): ReactNode {
    return this.state.broken ? this.props.fallback : this.props.children;
  }
}
