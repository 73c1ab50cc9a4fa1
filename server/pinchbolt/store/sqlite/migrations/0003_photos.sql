-- Which subjects name a photo: who may see one of them may see the photo.
CREATE INDEX entries_photo ON entries (json_extract(CAST(bytes AS TEXT), '$.body.sha256')) WHERE kind = 'photo';
