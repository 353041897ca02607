package org.gerdy.cli.bench;

import java.nio.file.Path;
import org.gerdy.cli.TriagePage;
import org.gerdy.engine.Gerdy;
import org.gerdy.engine.casefile.MendableException;
import org.gerdy.rules.LateralKnee;
import org.kie.api.KieBase;
import org.kie.api.KieServices;

/** A whole program that starts the same rules the ordinary Drools way and prints the same page. */
public final class OrdinaryStart {
    private OrdinaryStart() {}

    /** Prints the triage of the case file {@code args[0]}. */
    public static void main(String[] args) throws MendableException {
        Gerdy gerdy = new Gerdy(LateralKnee.knowledgeBase(OrdinaryStart::container));
        System.out.print(TriagePage.of(gerdy, gerdy.read(Path.of(args[0]))));
        System.out.flush();
        System.exit(0);
    }

    /** The rules from the class path container. */
    static KieBase container() {
        return KieServices.get().getKieClasspathContainer().getKieBase();
    }
}
