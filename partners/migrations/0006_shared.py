import django.db.models.deletion
import django.utils.timezone
import partners.ground.wall
import partners.program.models
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('partners', '0005_post'),
    ]

    operations = [
        migrations.CreateModel(
            name='Device',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('user', models.ForeignKey(on_delete=django.db.models.deletion.CASCADE, related_name='devices', to=settings.AUTH_USER_MODEL)),
                ('name', models.CharField(max_length=60, verbose_name='name of the device')),
                ('session_key', models.CharField(editable=False, max_length=40, unique=True)),
                ('signed_in_at', models.DateTimeField(verbose_name='signed in')),
                ('seen_on', models.DateField(verbose_name='last used on')),
            ],
            options={
                'verbose_name': 'device',
            },
        ),
        migrations.CreateModel(
            name='Invitation',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('name', models.CharField(max_length=120, verbose_name='name')),
                ('role', models.CharField(choices=[('keeper', 'Keeper: everything, also members and settings'), ('teacher', 'Teacher: everything but members and settings'), ('guest', 'Guest: reads what is opened, never notes')], default='teacher', max_length=8)),
                ('opened', models.JSONField(blank=True, default=partners.program.models.opened_at_first)),
                ('school_ids', models.JSONField(blank=True, default=list)),
                ('secret_hash', models.CharField(editable=False, max_length=64, unique=True)),
                ('ends_on', models.DateField(verbose_name='ends on')),
                ('used_by', models.ForeignKey(editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('used_on', models.DateField(editable=False, null=True, verbose_name='used on')),
            ],
            options={
                'verbose_name': 'invitation',
                'default_related_name': 'invitations',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='invitation_in_program')],
            },
        ),
        migrations.CreateModel(
            name='Wording',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('document', models.CharField(max_length=40, verbose_name='sheet')),
                ('language', models.CharField(default='en', max_length=8, verbose_name='language')),
                ('part', models.CharField(max_length=40, verbose_name='part of the sheet')),
                ('number', models.PositiveIntegerField(default=1, verbose_name='version')),
                ('words', models.TextField(blank=True, verbose_name='words')),
            ],
            options={
                'verbose_name': 'own words',
                'ordering': ['document', 'language', 'part', '-number'],
                'default_related_name': 'wordings',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='wording_in_program'), models.UniqueConstraint(fields=('program', 'document', 'language', 'part', 'number'), name='wording_version_once')],
            },
        ),
        migrations.CreateModel(
            name='Batch',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('kind', models.CharField(choices=[('thanks', 'thanks of a month'), ('year_end', 'year-end notes'), ('outing', 'sheets for an outing')], max_length=8, verbose_name='kind')),
                ('title', models.CharField(max_length=120, verbose_name='title')),
                ('day', models.DateField(verbose_name='printed on')),
                ('first', models.DateField(blank=True, null=True, verbose_name='from')),
                ('last', models.DateField(blank=True, null=True, verbose_name='through')),
                ('outing', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.outing', verbose_name='outing')),
                ('settled_on', models.DateField(blank=True, null=True, verbose_name='all gone out on')),
            ],
            options={
                'verbose_name': 'batch of sheets',
                'verbose_name_plural': 'batches of sheets',
                'ordering': ['-day', '-id'],
                'default_related_name': 'batches',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='batch_in_program'), partners.ground.wall.SameProgram(field='outing', name='batch_outing_wall')],
                'indexes': [models.Index(fields=['program', '-day', '-id'], name='batch_latest'), models.Index(condition=models.Q(('settled_on__isnull', True)), fields=['program', 'day', 'id'], name='batch_open')],
            },
        ),
        migrations.AddField(
            model_name='letter',
            name='place',
            field=models.PositiveIntegerField(blank=True, null=True, verbose_name='place in the batch'),
        ),
        migrations.AddField(
            model_name='partner',
            name='also_called',
            field=models.CharField(blank=True, help_text='Other names they were written under.', max_length=600, verbose_name='also called'),
        ),
        migrations.AddIndex(
            model_name='partner',
            index=models.Index(condition=models.Q(('also_called', ''), _negated=True), fields=['program', 'id'], name='partner_otherwise'),
        ),
        migrations.CreateModel(
            name='FormerPartner',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('was', models.BigIntegerField(verbose_name='number before')),
                ('partner', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.partner', verbose_name='partner')),
            ],
            options={
                'verbose_name': 'former number of a partner',
                'default_related_name': 'former_partners',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='formerpartner_in_program'), partners.ground.wall.SameProgram(field='partner', name='formerpartner_partner_wall'), models.UniqueConstraint(fields=('program', 'was'), name='formerpartner_once')],
            },
        ),
        migrations.CreateModel(
            name='NotSame',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('partner', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.partner', verbose_name='partner')),
                ('other', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='not_same_as', to='partners.partner', verbose_name='the other one')),
            ],
            options={
                'verbose_name': 'two partners that are not one',
                'verbose_name_plural': 'partners that are not one',
                'default_related_name': 'not_same',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='notsame_in_program'), partners.ground.wall.SameProgram(field='partner', name='notsame_partner_wall'), partners.ground.wall.SameProgram(field='other', name='notsame_other_wall')],
            },
        ),
        migrations.AddField(
            model_name='letter',
            name='batch',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.batch', verbose_name='batch'),
        ),
        migrations.AddIndex(
            model_name='letter',
            index=models.Index(condition=models.Q(('batch__isnull', False)), fields=['program', 'batch', 'place', 'id'], name='letter_of_batch'),
        ),
        migrations.AddConstraint(
            model_name='letter',
            constraint=partners.ground.wall.SameProgram(field='batch', name='letter_batch_wall'),
        ),
    ]
