import type { Api, Painting } from './api';
export async function openCorners(_m: HTMLElement, _p: Painting, _id: string, _api: Api): Promise<void> {}
