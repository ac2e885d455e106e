package traytender.testing;

import java.util.List;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtensionContext;
import org.junit.platform.commons.support.AnnotationSupport;

/** Decides about {@link NeedsServer}. */
final class ServerCondition implements ExecutionCondition {
    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
        var needs = AnnotationSupport.findAnnotation(context.getElement(), NeedsServer.class);
        if (needs.isEmpty()) {
            return ConditionEvaluationResult.enabled("needs no server");
        }
        var wanted = List.of(needs.get().value());
        var servers = System.getProperty("traytender.servers", "");
        if (servers.equals("none")) {
            return ConditionEvaluationResult.disabled("left out without -Dservers=install: needs " + wanted);
        }
        var missing = wanted.stream().filter(name -> Programs.find(name).isEmpty()).toList();
        if (missing.isEmpty()) {
            return ConditionEvaluationResult.enabled("all there: " + wanted);
        }
        if (servers.equals("install")) {
            throw new IllegalStateException(missing + " must be installed and is not");
        }
        return ConditionEvaluationResult.disabled("not installed: " + missing);
    }
}
