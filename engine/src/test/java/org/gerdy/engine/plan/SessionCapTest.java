package org.gerdy.engine.plan;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.List;
import org.junit.jupiter.api.Test;

class SessionCapTest {
    private static final LocalDate DAY = LocalDate.of(2026, 5, 31);
    private static final SessionCap CAP = new SessionCap(110, 30, 1000, 10);

    private static SessionCap.Done done(int daysAgo, long metres) {
        return new SessionCap.Done(DAY.minusDays(daysAgo), metres);
    }

    @Test
    void theEdgeIsExactInWholeMetres() {
        // 3000 x 1.1 is 3300.0000000000005 in floating point.
        assertThat(CAP.allowed(DAY, List.of(done(1, 3000)))).isEqualTo(3300);
        assertThat(CAP.allowed(DAY, List.of(done(1, 1999)))).isEqualTo(2190);
    }

    @Test
    void theThirtiethDayBackCountsAndTheThirtyFirstDoesNot() {
        assertThat(CAP.longest(DAY, List.of(done(30, 5000)))).hasValue(5000);
        assertThat(CAP.longest(DAY, List.of(done(31, 5000)))).isEmpty();
    }

    @Test
    void todaysOwnRunIsNoReference() {
        assertThat(CAP.longest(DAY, List.of(done(0, 5000)))).isEmpty();
    }

    @Test
    void noRunInTheWindowIsNoInfiniteSpikeButTheStart() {
        assertThat(CAP.allowed(DAY, List.of())).isEqualTo(1000);
        assertThat(CAP.allowed(DAY, List.of(done(3, 0)))).isEqualTo(1000);
    }
}
