import type { Locator } from 'playwright-core';
import { activity, command, type Maker } from './maker.ts';

/** Turns to the jobs, and waits until they are read. */
export async function jobsPage({ page }: Maker): Promise<Locator> {
  await command(page, 'Jobs');
  const region = page.locator('.jobs-page');
  await region.and(page.locator('[aria-busy="false"]')).waitFor();
  return region;
}

/** The lines of a job. */
export const jobOf = (region: Locator, title: string): Locator =>
  region.locator('.jobs-table tbody').filter({
    has: region.page().getByRole('button', { name: title, exact: true }),
  });

/** Makes a workbook a job that stands so, for somebody, and due on a day. */
export async function makeJob(
  region: Locator,
  title: string,
  {
    state,
    customer,
    due,
  }: { readonly state: string; readonly customer: string; readonly due: string },
): Promise<void> {
  await region.getByLabel('Workbook').selectOption({ label: title });
  await region.getByRole('button', { name: 'Make it a job' }).click();
  const job = jobOf(region, title);
  await job.waitFor();
  await region.getByLabel(`State of ${title}`).selectOption(state);
  await region.getByText(`"${title}" is ${state} now.`).waitFor();
  await region.getByRole('button', { name: `Change customer and date: ${title}` }).click();
  await job.getByLabel('Customer').fill(customer);
  await job.getByLabel('Due date').fill(due);
  await job.getByRole('button', { name: 'Save' }).click();
  await job.getByText(customer).waitFor();
}

/**
 * Two jobs: the dining table as it was made longer, and one of one's own templates. Where they stand there already, as
 * in a window that goes on to the next screen, those.
 */
export async function twoJobs(maker: Maker): Promise<Locator> {
  const there = await jobsPage(maker);
  if ((await jobOf(there, 'Kitchen table').count()) > 0) return there;
  await activity(maker.page, 'Workbook');
  await maker.type('top_length', '90');
  await maker.untilSaved();
  await maker.saveAsTemplate('Kitchen table');
  const region = await jobsPage(maker);
  await makeJob(region, 'Dining table', {
    state: 'accepted',
    customer: 'Invented household',
    due: '2020-03-02',
  });
  await makeJob(region, 'Kitchen table', {
    state: 'in the shop',
    customer: 'Invented inn',
    due: '2099-03-02',
  });
  return region;
}
