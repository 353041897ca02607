/**
 * What follows triage: plan items held against their contraindications, interim advice where triage says no more, and
 * dated schedules that obey their own caps. Items, doses and limits come from tables.
 */
@NullMarked
package org.gerdy.engine.plan;

import org.jspecify.annotations.NullMarked;
