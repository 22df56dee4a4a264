<#-- The file META-INF/THIRD-PARTY.txt of lungwort.jar. dependencyMap: libraries with the licences that they name. -->
Lungwort is free software under GPL-3.0-or-later; its text is META-INF/LUNGWORT-LICENSE.txt.

lungwort.jar holds these libraries under the licences named; where there are several, one of them may be chosen.
What they ask to be passed on stands in META-INF (LICENSE*, NOTICE*). The fonts in reports: lungwort/report/FONT-LICENSE.txt.

<#list dependencyMap as entry>
<#assign library = entry.getKey()/>
<#if library.groupId != "lungwort">
${library.name} ${library.version} (${library.groupId}:${library.artifactId})
    ${entry.getValue()?join(" or ")}<#if library.url??>, ${library.url}</#if>
</#if>
</#list>
