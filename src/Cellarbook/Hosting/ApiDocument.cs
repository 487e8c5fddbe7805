using Cellarbook.Api;
using Cellarbook.Core.Book;
using Cellarbook.Core.Operations;
using Cellarbook.Core.Quantities;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;

namespace Cellarbook.Hosting;

/// <summary>How the API describes itself: api-docs/openapi.json is this, written at build and committed.</summary>
internal static class ApiDocument
{
    /// <summary>Quantities stand as plain decimal numbers; days, times and references as what they look like.</summary>
    private static readonly Dictionary<Type, (JsonSchemaType Type, string? Format, string Description)> Plain = new()
    {
        [typeof(Volume)] = (JsonSchemaType.Number, null, "Litres, exact to the microlitre."),
        [typeof(Millilitres)] = (JsonSchemaType.Number, null, "Millilitres, exact to the microlitre."),
        [typeof(Strength)] = (JsonSchemaType.Number, null, "% vol, at most two decimals."),
        [typeof(BottleCount)] = (JsonSchemaType.Integer, null, "Whole bottles."),
        [typeof(Mass)] = (JsonSchemaType.Number, null, "Grams, exact to the milligram."),
        [typeof(FruitWeight)] = (JsonSchemaType.Number, null, "Kilograms, exact to the gram."),
        [typeof(Percent)] = (JsonSchemaType.Number, null, "Per cent, at most three decimals."),
        [typeof(Reading)] = (JsonSchemaType.Number, null, "A reading, kept with the decimals it has."),
        [typeof(Sentence)] = (JsonSchemaType.String, null, "A sentence in English."),
        [typeof(EntryReference)] = (JsonSchemaType.Integer | JsonSchemaType.String, null, "Number of an entry, or id of an imported event."),
    };

    public static void Configure(OpenApiOptions options)
    {
        options.AddSchemaTransformer((schema, context, _) =>
        {
            var type = Nullable.GetUnderlyingType(context.JsonTypeInfo.Type) ?? context.JsonTypeInfo.Type;
            if (Plain.TryGetValue(type, out var plain))
            {
                schema.Type = plain.Type;
                schema.Format = plain.Format;
                schema.Description = plain.Description;
                schema.Properties = null;
                schema.Required = null;
            }
            else if (type == typeof(ProductKind) || type == typeof(Malolactic))
            {
                schema.Type = JsonSchemaType.String;
                schema.Enum = [.. Enum.GetNames(type).Select(name => (System.Text.Json.Nodes.JsonNode)System.Text.Json.JsonNamingPolicy.CamelCase.ConvertName(name))];
            }
            return Task.CompletedTask;
        });
        options.AddOperationTransformer((operation, context, _) =>
        {
            foreach (var type in context.Description.ActionDescriptor.EndpointMetadata.OfType<AlsoAs>().SelectMany(also => also.ContentTypes))
                operation.Responses!["200"].Content![type] = new OpenApiMediaType { Schema = new OpenApiSchema { Type = JsonSchemaType.String, Format = type == AlsoAs.Xlsx ? "binary" : null } };
            return Task.CompletedTask;
        });
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new OpenApiInfo
            {
                Title = "Cellarbook",
                Version = "v1",
                Description = "The book of a small cellar: what was done, what is where, what a period comes to. Every operation is worked through in operations.md, every refusal in refusals.md, every CSV column in columns.md.",
            };
            document.Servers = [];
            return Task.CompletedTask;
        });
    }
}
