package traytender.dashboard;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaAccess;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.time.Clock;
import java.time.Instant;

/** The house as DEVELOPERS.md draws it: who may know whom. */
@AnalyzeClasses(packages = "traytender", importOptions = DoNotIncludeTests.class)
class ArrowsTest {
    private static final String COMMAND = "traytender.dashboard.command..";
    /** What the rules' compiler makes of the DRL files. */
    private static final String GENERATED =
            "traytender\\.rules\\.judge\\.(Rules[0-9A-Fa-f]{32}|DomainClassesMetadata[0-9A-Fa-f]{32}|P[0-9A-F]{2}\\.).*";

    @ArchTest
    static final ArchRule config_knowsNoOtherRoom = noClasses()
            .that()
            .resideInAPackage("traytender.config..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("traytender.ingest..", "traytender.rules..", "traytender.dashboard..");

    @ArchTest
    static final ArchRule ingest_knowsOnlyConfig = noClasses()
            .that()
            .resideInAPackage("traytender.ingest..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("traytender.rules..", "traytender.dashboard..");

    @ArchTest
    static final ArchRule rules_knowOnlyConfig = noClasses()
            .that()
            .resideInAPackage("traytender.rules..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("traytender.ingest..", "traytender.dashboard..");

    @ArchTest
    static final ArchRule page_knowsNeitherProgramNorCommand = noClasses()
            .that()
            .resideInAnyPackage("traytender.dashboard.page..", "traytender.dashboard.record..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("traytender.dashboard.program..", COMMAND);

    @ArchTest
    static final ArchRule program_doesNotKnowItsCommand = noClasses()
            .that()
            .resideInAPackage("traytender.dashboard.program..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage(COMMAND);

    @ArchTest
    static final ArchRule drools_isLoadedByOneClass = noClasses()
            .that()
            .doNotHaveFullyQualifiedName("traytender.rules.judge.RuleBase")
            .and()
            .haveNameNotMatching(GENERATED)
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("org.drools.modelcompiler..", "org.drools.model..", "org.drools.compiler..");

    @ArchTest
    static final ArchRule mqttClient_isKnownToOnePackage = noClasses()
            .that()
            .resideOutsideOfPackage("traytender.ingest.mqtt..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.eclipse.paho..");

    @ArchTest
    static final ArchRule brokerLibrary_isKnownToOnePackage = noClasses()
            .that()
            .resideOutsideOfPackage("traytender.ingest.broker..")
            .should()
            .dependOnClassesThat()
            .resideInAPackage("org.apache.activemq..");

    @ArchTest
    static final ArchRule databases_areKnownToOnePackage = noClasses()
            .that()
            .resideOutsideOfPackage("traytender.ingest.store..")
            .should()
            .dependOnClassesThat()
            .resideInAnyPackage("java.sql..", "javax.sql..", "org.sqlite..", "org.influxdb..");

    @ArchTest
    static final ArchRule logging_goesOneWay =
            noClasses().should().dependOnClassesThat().resideInAPackage("java.util.logging..");

    @ArchTest
    static final ArchRule standardOutput_isTheCommandsAlone = noClasses()
            .that()
            .resideOutsideOfPackage(COMMAND)
            .and()
            // The scenario harness's own programs, which write the table they are asked for.
            .resideOutsideOfPackages("traytender.ingest.nursery.scenario..", "traytender.ingest.nursery.score..")
            .should()
            .accessField(System.class, "out")
            .orShould()
            .accessField(System.class, "err");

    @ArchTest
    static final ArchRule time_isInjected = noClasses()
            .that()
            .doNotHaveFullyQualifiedName("traytender.dashboard.command.Traytender")
            .and()
            // How long a login lasts goes by the machine's own clock, whatever time it is on the bench.
            .doNotHaveFullyQualifiedName("traytender.dashboard.page.PageServer")
            .should()
            .callMethod(Instant.class, "now")
            .orShould()
            .callMethod(System.class, "currentTimeMillis")
            .orShould()
            .callMethodWhere(systemClock());

    @ArchTest
    static final ArchRule packages_sayTheirNullRule = classes()
            .that()
            .haveSimpleName("package-info")
            .should()
            .beAnnotatedWith("org.jspecify.annotations.NullMarked");

    private static DescribedPredicate<JavaAccess<?>> systemClock() {
        return DescribedPredicate.describe(
                "asks for the system's clock",
                access -> access.getTargetOwner().isEquivalentTo(Clock.class)
                        && access.getName().startsWith("system"));
    }
}
